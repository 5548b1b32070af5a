//! Taking connections: only so many at a time, with patience that ends, each marked with the way it came.

use std::convert::Infallible;
use std::net::SocketAddr;
use std::sync::Arc;
use std::time::Duration;

use axum::Router;
use axum::body::Body;
use axum::response::Response;
use axum::routing::future::RouteFuture;
use hyper::Request;
use hyper::body::Incoming;
use hyper::server::conn::http1::{self, Connection};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::io::{AsyncRead, AsyncWrite};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};

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
}
