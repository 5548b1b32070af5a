//! The socket: this machine only, with patience that ends, until Ctrl-C.

use std::fmt;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use app::desk::Desk;
use axum::Router;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::server::graceful::GracefulShutdown;
use hyper_util::service::TowerToHyperService;
use tokio::net::TcpListener;
use tokio::sync::Semaphore;

use super::{Clock, Entry, Site};
use crate::web::routes;

/// Longest wait for the head of a request.
const HEAD_PATIENCE: Duration = Duration::from_secs(15);
/// Longest wait for answers on their way when the server stops.
const GOODBYE: Duration = Duration::from_secs(5);
/// How often it looks whether a new day has begun.
const MIDNIGHT_WATCH: Duration = Duration::from_secs(60);
/// Most connections at a time.
const CONNECTIONS: usize = 128;

/// How to serve.
pub struct Settings {
    /// Where; only a loopback address is taken. Port 0 takes any free one.
    pub address: SocketAddr,
    /// How one comes in: by an account, or, in the demo, as its author.
    pub entry: Entry,
    /// Reads the clock.
    pub clock: Clock,
    /// Words above every page, for instance that the club is invented.
    pub banner: Option<String>,
}

/// Why nothing is served.
#[derive(Debug)]
pub enum ServeError {
    /// Another address than this machine's own was asked for.
    NotLoopback(SocketAddr),
    /// The address cannot be taken.
    Bind(SocketAddr, std::io::Error),
}

impl ServeError {
    /// Name of the sentence in the catalogue, its values, and its hint.
    pub fn says(&self) -> (&'static str, Vec<(&'static str, String)>, &'static str) {
        match self {
            Self::NotLoopback(address) => {
                ("error-not-loopback", vec![("address", address.to_string())], "error-not-loopback-hint")
            }
            Self::Bind(address, error) => (
                "error-bind",
                vec![("address", address.to_string()), ("detail", error.to_string())],
                "error-bind-hint",
            ),
        }
    }
}

impl fmt::Display for ServeError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (says, values, _) = self.says();
        out.write_str(&app::text::Texts::english().say(says, &values))
    }
}

impl std::error::Error for ServeError {}

/// A server that holds its address and has not begun to answer.
pub struct Bound {
    listener: TcpListener,
    app: Router,
    site: Site,
    address: SocketAddr,
}

/// Takes the address. Every other address than loopback is refused before anything is opened: accounts and
/// encrypted connections do not exist yet.
pub async fn bind(desk: Desk, settings: Settings) -> Result<Bound, ServeError> {
    if !settings.address.ip().is_loopback() {
        return Err(ServeError::NotLoopback(settings.address));
    }
    let failed = |error| ServeError::Bind(settings.address, error);
    let listener = TcpListener::bind(settings.address).await.map_err(failed)?;
    let address = listener.local_addr().map_err(failed)?;
    let site = Site::with(desk, settings.entry, settings.clock, settings.banner, address.port());
    Ok(Bound { listener, app: routes::router(site.clone()), site, address })
}

/// Serves until Ctrl-C. `ready` is told the address once it is taken.
pub async fn serve(desk: Desk, settings: Settings, ready: impl FnOnce(SocketAddr)) -> Result<(), ServeError> {
    let bound = bind(desk, settings).await?;
    ready(bound.address());
    bound
        .run(async {
            // Without a way to hear Ctrl-C the server runs until it is ended from outside.
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        })
        .await;
    Ok(())
}

impl Bound {
    /// Where it is.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// Answers until `stop` is done, then lets answers on their way arrive.
    pub async fn run(self, stop: impl Future<Output = ()>) {
        let mut http = http1::Builder::new();
        http.timer(TokioTimer::new()).header_read_timeout(HEAD_PATIENCE).max_buf_size(64 * 1024);
        let leaving = GracefulShutdown::new();
        let places = Arc::new(Semaphore::new(CONNECTIONS));
        let each_day = tokio::spawn(stay_warm(self.site.clone()));
        let mut stop = std::pin::pin!(stop);
        loop {
            let place = tokio::select! {
                place = Arc::clone(&places).acquire_owned() => place,
                () = &mut stop => break,
            };
            let Ok(place) = place else { break };
            let accepted = tokio::select! {
                accepted = self.listener.accept() => accepted,
                () = &mut stop => break,
            };
            let Ok((stream, _)) = accepted else {
                // Out of file handles, most likely: a moment later there may be some.
                tokio::time::sleep(Duration::from_millis(50)).await;
                continue;
            };
            let service = TowerToHyperService::new(self.app.clone());
            let connection = leaving.watch(http.serve_connection(TokioIo::new(stream), service));
            tokio::spawn(async move {
                // A connection that breaks off concerns nobody but the one who broke it off.
                let _ = connection.await;
                drop(place);
            });
        }
        each_day.abort();
        let _ = tokio::time::timeout(GOODBYE, leaving.shutdown()).await;
    }
}

/// Judges everybody once at the start and once after each midnight, before the first reader asks.
async fn stay_warm(site: Site) {
    let mut known = None;
    // After a fault between storing a device's entries and drawing facts from them, both are brought into line.
    let mended = site.clone();
    let _ = tokio::task::spawn_blocking(move || mended.desk().settle_all(&mended.now())).await;
    loop {
        let today = site.now().today;
        if known != Some(today) {
            let site = site.clone();
            // A fault in here concerns nobody: the reader's own request would meet it and say so.
            let _ = tokio::task::spawn_blocking(move || site.warm()).await;
            known = Some(today);
        }
        tokio::time::sleep(MIDNIGHT_WATCH).await;
    }
}
