//! A look at every building block, for whoever works on the pages: `cargo run -p cuffwright --example gallery`.
//!
//! Never shipped. It serves the real headers, so a block that needs what the policy forbids breaks here first.

mod pages;

use axum::Router;
use axum::extract::Path;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use cuffwright::web::{assets, error::WebError, respond};

#[tokio::main(flavor = "current_thread")]
async fn main() -> std::io::Result<()> {
    let app = Router::new()
        .route("/assets/{name}", get(assets::serve))
        .route("/{page}", get(show))
        .fallback(|| async { WebError::missing() })
        .layer(axum::middleware::map_response(respond::guard));
    let listener = tokio::net::TcpListener::bind(("127.0.0.1", port())).await?;
    #[expect(clippy::print_stdout, reason = "the address is what the reader needs")]
    {
        for (name, _) in pages::ALL {
            println!("http://{}/{name}", listener.local_addr()?);
        }
    }
    axum::serve(listener, app).await
}

/// The port may be named, so that two looks can stand side by side; any free one otherwise.
fn port() -> u16 {
    std::env::args().nth(1).and_then(|word| word.parse().ok()).unwrap_or(0)
}

async fn show(Path(name): Path<String>) -> Response {
    match pages::ALL.iter().find(|(known, _)| *known == name) {
        Some((_, page)) => respond::page(page()),
        None => WebError::missing().into_response(),
    }
}
