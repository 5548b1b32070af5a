//! The socket of this machine alone, with patience that ends, until Ctrl-C; and beside it, where it is asked for, the
//! encrypted one on the club's network.

use std::fmt;
use std::net::SocketAddr;
use std::time::Duration;

use app::desk::Desk;
use axum::Router;
use door::listen::Refusal;
use hyper_util::server::graceful::GracefulShutdown;
use tokio::net::TcpListener;

use super::lan::Lan;
use super::on_lan::{LanSettings, OnLan};
use super::reception::Reception;
use super::way::Way;
use super::{Clock, Entry, Site};
use crate::web::routes;

/// Longest wait for answers on their way when the server stops.
const GOODBYE: Duration = Duration::from_secs(5);
/// How often it looks whether a new day has begun.
const MIDNIGHT_WATCH: Duration = Duration::from_secs(60);

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
    /// An address that others reach is refused.
    Refused(Refusal),
    /// There is no certificate to serve with; every trouble in words.
    Certificate(String),
    /// The record cannot be read.
    Store(String),
}

impl ServeError {
    /// Name of the sentence in the catalogue, its values, and its hint.
    pub fn says(&self) -> (&'static str, Vec<(&'static str, String)>, &'static str) {
        match self {
            Self::NotLoopback(address) => {
                ("error-not-loopback", vec![("address", address.to_string())], "error-not-loopback-hint")
            }
            Self::Refused(refusal) => {
                let error = app::entry::problem::refused_address(*refusal);
                (error.says, Vec::new(), error.hint.unwrap_or_default())
            }
            Self::Certificate(detail) => {
                ("error-certificate", vec![("detail", detail.clone())], "error-certificate-hint")
            }
            Self::Store(detail) => ("error-storage", vec![("detail", detail.clone())], "error-storage-hint"),
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
    lan: Option<OnLan>,
}

/// Takes the address. Every other address than loopback is refused before anything is opened: plain connections do
/// not leave this machine. Phones come by [`Bound::also_on_lan`].
pub async fn bind(desk: Desk, settings: Settings) -> Result<Bound, ServeError> {
    if !settings.address.ip().is_loopback() {
        return Err(ServeError::NotLoopback(settings.address));
    }
    let failed = |error| ServeError::Bind(settings.address, error);
    let listener = TcpListener::bind(settings.address).await.map_err(failed)?;
    let address = listener.local_addr().map_err(failed)?;
    let site = Site::with(desk, settings.entry, settings.clock, settings.banner, address.port());
    Ok(Bound { listener, app: routes::router(site.clone()), site, address, lan: None })
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

    /// The site that is served.
    pub fn site(&self) -> &Site {
        &self.site
    }

    /// Answers on the club's network as well, encrypted.
    pub async fn also_on_lan(mut self, how: LanSettings) -> Result<Self, ServeError> {
        self.lan = Some(OnLan::bind(&self.site, self.app.clone(), how).await?);
        Ok(self)
    }

    /// How phones reach it, where it is served to them.
    pub fn lan(&self) -> Option<Lan> {
        self.site.lan()
    }

    /// Answers until `stop` is done, then lets answers on their way arrive.
    pub async fn run(self, stop: impl Future<Output = ()>) {
        let leaving = GracefulShutdown::new();
        let each_day = tokio::spawn(stay_warm(self.site.clone()));
        let desk = Reception::new(self.app);
        let mut lan = self.lan;
        if let Some(lan) = &mut lan {
            lan.begin(self.site.clone());
        }
        let from_lan = async || match &lan {
            Some(lan) => lan.accept().await,
            None => std::future::pending().await,
        };
        let mut stop = std::pin::pin!(stop);
        loop {
            tokio::select! {
                taken = desk.accept(&self.listener) => {
                    let Some((stream, peer, place)) = taken else { continue };
                    let way = Way { secure: false, peer: peer.ip(), port: self.address.port() };
                    let connection = leaving.watch(desk.connection(stream, way));
                    tokio::spawn(async move {
                        // A connection that breaks off concerns nobody but the one who broke it off.
                        let _ = connection.await;
                        drop(place);
                    });
                }
                taken = from_lan() => {
                    if let (Some(taken), Some(lan)) = (taken, &lan) {
                        lan.answer(taken, leaving.watcher(), self.site.lan());
                    }
                }
                () = &mut stop => break,
            }
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
