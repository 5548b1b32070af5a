//! The pages over the demo club or over nothing, for whoever works on them: `cargo run -p cuffwright --example
//! demo_pages [PORT] [empty]`. Never shipped; nothing is kept.

use std::net::SocketAddr;
use std::sync::Arc;

use app::desk::{Author, Desk};
use app::{demo, text::day};
use cuffwright::web::site::Entry;
use cuffwright::web::{Settings, serve};
use store::Store;
use trade::protocol::shipped;

#[tokio::main]
async fn main() -> Result<(), Box<dyn std::error::Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let port: u16 = words.first().and_then(|word| word.parse().ok()).unwrap_or(0);
    let is_empty = words.iter().any(|word| word == "empty");
    let (store, protocol) = (Store::in_memory()?, shipped().clone());
    let desk = if is_empty { Desk::new(store, protocol)? } else { demo::open(demo::SEED, protocol, store)? };
    let today = demo::morning().today;
    let settings = Settings {
        address: SocketAddr::from(([127, 0, 0, 1], port)),
        entry: Entry::Demo(Author { name: demo::PRACTITIONER.to_owned(), device: "example".to_owned() }),
        clock: Arc::new(demo::morning),
        banner: (!is_empty).then(|| format!("Demo club, invented. Its day is {}.", day(today))),
    };
    serve(desk, settings, |address| {
        #[expect(clippy::print_stdout, reason = "the address is what the reader needs")]
        {
            println!("http://{address}/");
        }
    })
    .await?;
    Ok(())
}
