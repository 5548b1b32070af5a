//! Taking connections: only so many at a time, with patience that ends, each marked with the way it came.

use std::convert::Infallible;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use axum::routing::future::RouteFuture;
use hyper::Request;
use hyper::body::Incoming;
use hyper::server::conn::http1::{self, Connection};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};

use super::lan::Lan;
use super::way::Way;

/// Longest wait for the head of a request.
const HEAD_PATIENCE: Duration = Duration::from_secs(15);
/// Most connections at a time, for each socket: somebody on the network who takes them all leaves the laptop its own.
const CONNECTIONS: usize = 128;

/// What takes connections of one socket.
pub(super) struct Reception {
    app: Router,
    http: http1::Builder,
    places: Arc<Semaphore>,
}

/// What answers on one connection: the router, with every request marked by the way it came.
pub(super) struct Served {
    app: Router,
    way: Way,
}

impl hyper::service::Service<Request<Incoming>> for Served {
    type Response = Response;
    type Error = Infallible;
    type Future = RouteFuture<Infallible>;

    fn call(&self, request: Request<Incoming>) -> Self::Future {
        let mut request = request.map(Body::new);
        request.extensions_mut().insert(self.way);
        tower::Service::call(&mut self.app.clone(), request)
    }
}

/// A connection, from where it comes, and the place it takes.
pub(super) type Taken = (TcpStream, SocketAddr, OwnedSemaphorePermit);

impl Reception {
    pub(super) fn new(app: Router) -> Self {
        let mut http = http1::Builder::new();
        http.timer(TokioTimer::new()).header_read_timeout(HEAD_PATIENCE).max_buf_size(64 * 1024);
        Self { app, http, places: Arc::new(Semaphore::new(CONNECTIONS)) }
    }

    /// The next connection, with a place for it; none when none could be taken just now.
    pub(super) async fn accept(&self, listener: &TcpListener) -> Option<Taken> {
        let place = Arc::clone(&self.places).acquire_owned().await.ok()?;
        match listener.accept().await {
            Ok((stream, peer)) => Some((stream, peer, place)),
            Err(_) => {
                // Out of file handles, most likely: a moment later there may be some.
                tokio::time::sleep(Duration::from_millis(50)).await;
                None
            }
        }
    }

    /// One connection, to be awaited.
    pub(super) fn connection<S>(&self, stream: S, way: Way) -> Connection<TokioIo<S>, Served>
    where
        S: AsyncRead + AsyncWrite + Unpin,
    {
        self.http.serve_connection(TokioIo::new(stream), Served { app: self.app.clone(), way })
    }

    /// One connection that came in plain where encryption is spoken: told the encrypted address, and nothing else.
    /// People type a name without saying how.
    pub(super) fn led_on<S>(&self, stream: S, lan: Lan) -> Connection<TokioIo<S>, LedOn>
    where
        S: AsyncRead + AsyncWrite + Unpin,
    {
        self.http.serve_connection(TokioIo::new(stream), LedOn { lan })
    }
}

/// Leads whoever asks in plain to the same path of the encrypted address.
pub(super) struct LedOn {
    lan: Lan,
}

impl hyper::service::Service<Request<Incoming>> for LedOn {
    type Response = Response;
    type Error = Infallible;
    type Future = std::future::Ready<Result<Response, Infallible>>;

    fn call(&self, request: Request<Incoming>) -> Self::Future {
        let host = request.headers().get(header::HOST).and_then(|host| host.to_str().ok());
        let path = request.uri().path_and_query().map_or("/", |path| path.as_str());
        let mut response = Response::new(Body::empty());
        *response.status_mut() = StatusCode::PERMANENT_REDIRECT;
        let to = encrypted(&self.lan, host.unwrap_or_default(), path);
        match to.and_then(|to| HeaderValue::from_str(&to).ok()) {
            Some(to) => drop(response.headers_mut().insert(header::LOCATION, to)),
            None => *response.status_mut() = StatusCode::MISDIRECTED_REQUEST,
        }
        std::future::ready(Ok(response))
    }
}

/// The encrypted address of a path, under the name that was asked for; none for a name that is not ours.
fn encrypted(lan: &Lan, host: &str, path: &str) -> Option<String> {
    let name = host.strip_suffix(&format!(":{}", lan.port)).unwrap_or(host);
    let ours = lan.hosts().into_iter().find(|ours| ours.eq_ignore_ascii_case(name))?;
    let port = if lan.port == 443 { String::new() } else { format!(":{}", lan.port) };
    path.starts_with('/').then(|| format!("https://{ours}{port}{path}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_words_lead_to_the_encrypted_address_of_the_same_name_and_nowhere_else() {
        let lan = Lan {
            host: "cuffwright.local".into(),
            addresses: vec!["192.168.1.7".parse().unwrap()],
            port: 7418,
            authority: None,
            until: jiff::civil::date(2027, 2, 1),
        };
        let to = |host, path| encrypted(&lan, host, path);
        assert_eq!(
            to("cuffwright.local:7418", "/pair?code=X").as_deref(),
            Some("https://cuffwright.local:7418/pair?code=X")
        );
        assert_eq!(to("192.168.1.7:7418", "/").as_deref(), Some("https://192.168.1.7:7418/"));
        assert_eq!(to("evil.example:7418", "/"), None);
        assert_eq!(to("", "/"), None);
    }
}
