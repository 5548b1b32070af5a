//! `cuffwright demo`: the invented club in a folder of its own, served at once.

use std::fs;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use app::demo::{self, CLUB, DAY, PRACTITIONER, SEED, ZONE};
use app::desk::{Author, Desk};
use store::{Open, Store};

use super::Context;
use super::answer::Answer;
use super::clock;
use super::exit::Exit;
use super::failure::Failure;
use super::open;
use super::serve::{self, PORT, Served};
use super::words::say;
use crate::web::Settings;
use crate::web::site::{Clock, Entry};

/// The record file in the demo's folder.
const FILE: &str = "demo.cuff";

/// Opens an invented club with ten weeks behind it, and serves its pages on this machine until Ctrl-C.
///
/// Everything is made from one number, so that the same number gives the same club. Its day stands still. Without a
/// folder the record goes when the command ends; in a folder it stays, and is opened again as it was left.
#[derive(Debug, clap::Args)]
#[command(
    after_long_help = "JSON: one line when the address is taken: shape cuffwright.serving/1, as for serve."
)]
pub(super) struct Args {
    /// Keeps the record in this folder, which is made if it is not there.
    #[arg(long, value_name = "FOLDER")]
    folder: Option<PathBuf>,
    /// The port; 0 takes any free one. When left out, a free one is taken if the usual one is not.
    #[arg(long, value_name = "NUMBER")]
    port: Option<u16>,
    /// The number that the club is made from.
    #[arg(long, value_name = "NUMBER")]
    seed: Option<u64>,
}

/// A folder that goes with the command.
struct Passing(PathBuf);

impl Drop for Passing {
    fn drop(&mut self) {
        // What cannot be removed stays in the folder for temporary files, which the system clears.
        fs::remove_dir_all(&self.0).ok();
    }
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let (folder, passing) = match &args.folder {
        Some(folder) => (folder.clone(), None),
        None => {
            let folder = std::env::temp_dir().join(format!("cuffwright-demo-{}", std::process::id()));
            (folder.clone(), Some(Passing(folder)))
        }
    };
    fs::create_dir_all(&folder).map_err(|error| Failure::file(&folder, &error))?;
    let store = folder.join(FILE);
    let desk = desk(&store, args.seed)?;
    let zone = clock::zone(ZONE)?;
    let clock: Clock =
        Arc::new(move || clock::moment_in(&zone, context).on_day(context.today.unwrap_or(DAY)));
    let day = app::text::day(DAY);
    let settings = Settings {
        address: SocketAddr::new(
            IpAddr::V4(Ipv4Addr::LOCALHOST),
            args.port.unwrap_or_else(usual_or_any_port),
        ),
        entry: Entry::Demo(Author { name: PRACTITIONER.to_owned(), device: "browser".to_owned() }),
        clock,
        banner: Some(say("cli-demo-banner", &[("day", day.clone())])),
    };
    let mut served = Served::new(CLUB, store.display().to_string(), passing.is_none());
    served.today = Some(if context.json { DAY.to_string() } else { day });
    let answer = serve::serve(desk, settings, None, served, context);
    drop(passing);
    answer
}

/// The club as it was left, or made anew.
fn desk(path: &Path, seed: Option<u64>) -> Result<Desk, Failure> {
    let failed = |error| Failure::store(path, error);
    let store = Store::open(path, Open { create: true }).map_err(failed)?;
    let protocol = open::protocol(None)?;
    let is_new = store.counts().map_err(failed)?.facts == 0;
    match (is_new, seed) {
        (true, seed) => Ok(demo::open(seed.unwrap_or(SEED), protocol, store)?),
        (false, None) => Ok(Desk::new(store, protocol)?),
        (false, Some(_)) => {
            let file = [("store", path.display().to_string())];
            Err(Failure::new(Exit::Refused, "cli-demo-seed", &file).hint("cli-demo-seed-hint"))
        }
    }
}

/// The usual port if it is free, else any.
fn usual_or_any_port() -> u16 {
    if TcpListener::bind((Ipv4Addr::LOCALHOST, PORT)).is_ok() { PORT } else { 0 }
}
