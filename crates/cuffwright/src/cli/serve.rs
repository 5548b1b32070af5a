//! `cuffwright serve`: the pages, for this machine and, where it is asked for, encrypted for the club's network.

use std::io::Write;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::panic;
use std::path::PathBuf;
use std::sync::Arc;

use app::desk::Desk;
use serde::Serialize;

use super::Context;
use super::answer::{Answer, json_text};
use super::clock;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::words::{say, word};
use crate::web::site::lan::Lan;
use crate::web::site::{Clock, Entry};
use crate::web::{Files, LanSettings, ServeError, Settings, bind};

/// The port where nobody names one.
pub(super) const PORT: u16 = 7417;
/// The port for phones where nobody names one.
const LAN_PORT: u16 = 7418;

/// Serves the pages for a browser on this machine, until Ctrl-C.
///
/// Whoever opens the first page of a new file makes the owner's account. With --lan phones on the club's network are
/// served as well, encrypted, under a name that stays the same; that takes an account. Plain connections never leave
/// this machine.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: one line when the address is taken: shape cuffwright.serving/1 with address, club, store, keeps (whether the \
record stays), today (the day that stands still; null where the clock counts) and lan (null, or name, numbers, \
fingerprint of the laptop's authority, until).")]
pub(super) struct Args {
    #[command(flatten)]
    store: StoreArgs,
    /// The port; 0 takes any free one.
    #[arg(long, value_name = "NUMBER", default_value_t = PORT)]
    port: u16,
    /// The address; one of this machine's own.
    #[arg(long, value_name = "ADDRESS", default_value = "127.0.0.1", value_parser = address)]
    address: IpAddr,
    /// Serves phones on the club's network as well, encrypted.
    #[arg(long)]
    lan: bool,
    /// The port for phones; 0 takes any free one.
    #[arg(long, value_name = "NUMBER", default_value_t = LAN_PORT, requires = "lan")]
    lan_port: u16,
    /// The address for phones; all of this machine's when left out.
    #[arg(long, value_name = "ADDRESS", default_value = "0.0.0.0", value_parser = address, requires = "lan")]
    lan_address: IpAddr,
    /// Does not tell the network the name: phones then come by numbers.
    #[arg(long, requires = "lan")]
    no_name: bool,
    /// The folder of the laptop's own certificates; beside the record file when left out.
    #[arg(long, value_name = "FOLDER", requires = "lan", conflicts_with = "certificate")]
    certificates: Option<PathBuf>,
    /// A certificate that the club brings, with its chain, as PEM.
    #[arg(long, value_name = "FILE", requires_all = ["lan", "key", "host"])]
    certificate: Option<PathBuf>,
    /// The key of that certificate, as PEM.
    #[arg(long, value_name = "FILE", requires = "certificate")]
    key: Option<PathBuf>,
    /// The name that phones use with that certificate.
    #[arg(long, value_name = "NAME", requires = "certificate")]
    host: Option<String>,
}

/// What is served, for the one answer at the start.
#[derive(Debug, Serialize)]
pub(super) struct Served {
    shape: &'static str,
    address: String,
    pub(super) club: String,
    pub(super) store: String,
    pub(super) keeps: bool,
    pub(super) today: Option<String>,
    lan: Option<LanSaid>,
}

/// How phones reach it.
#[derive(Debug, Serialize)]
struct LanSaid {
    name: String,
    numbers: Vec<String>,
    fingerprint: Option<String>,
    until: String,
}

impl Served {
    /// What is served; the address is known once it is taken.
    pub(super) fn new(club: &str, store: String, keeps: bool) -> Self {
        Self {
            shape: "cuffwright.serving/1",
            address: String::new(),
            club: club.to_owned(),
            store,
            keeps,
            today: None,
            lan: None,
        }
    }
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    let address = SocketAddr::new(args.address, args.port);
    only_this_machine(address)?;
    let desk = args.store.open()?;
    let about = clock::club(&desk)?.clone();
    let zone = clock::zone(&about.zone)?;
    let clock: Clock = Arc::new(move || clock::moment_in(&zone, context));
    let served = Served::new(&about.name, args.store.store.display().to_string(), true);
    let settings = Settings { address, entry: Entry::Accounts, clock, banner: None };
    serve(desk, settings, lan(args), served, context)
}

/// How phones are to be served, if at all.
fn lan(args: &Args) -> Option<LanSettings> {
    if !args.lan {
        return None;
    }
    let files = match (&args.certificate, &args.key, &args.host) {
        (Some(certificate), Some(key), Some(host)) => {
            Files::Club { certificate: certificate.clone(), key: key.clone(), host: host.to_lowercase() }
        }
        _ => {
            let beside = || {
                let mut name = args.store.store.clone().into_os_string();
                name.push(".certificates");
                PathBuf::from(name)
            };
            Files::Laptop(args.certificates.clone().unwrap_or_else(beside))
        }
    };
    let address = SocketAddr::new(args.lan_address, args.lan_port);
    Some(LanSettings { address, files, announce: !args.no_name })
}

/// Serves until Ctrl-C, and says where as soon as the address is taken.
pub(super) fn serve(
    desk: Desk,
    settings: Settings,
    lan: Option<LanSettings>,
    mut served: Served,
    context: Context,
) -> Result<Answer, Failure> {
    // A page that fails shows a reference; where it failed is for whoever started the command.
    panic::set_hook(Box::new(|fault| {
        let place = fault.location().map_or_else(String::new, |at| format!("{}:{}", at.file(), at.line()));
        let detail = fault.payload_as_str().unwrap_or_default();
        writeln!(std::io::stderr(), "cuffwright: defect at {place}: {detail}").ok();
    }));
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(|error| no_runtime(&error))?;
    let mut ready = |address: SocketAddr, lan: Option<Lan>| {
        served.address = format!("http://{address}/");
        served.lan = lan.map(|lan| LanSaid {
            name: lan.address("/"),
            numbers: lan.numbers("/"),
            fingerprint: lan.authority.map(|authority| authority.fingerprint),
            until: lan.until.to_string(),
        });
        let text = if context.json { json_text(&served) } else { page_of(&served).into_text() };
        let mut out = std::io::stdout().lock();
        // Whoever started this may have closed the pipe; the pages are served all the same.
        out.write_all(text.as_bytes()).and_then(|()| out.flush()).ok();
    };
    runtime.block_on(async {
        // Heard from before the address is said, so that a Ctrl-C right after it still ends in order.
        let stop = asked_to_stop().map_err(|error| no_runtime(&error))?;
        let bound = bind(desk, settings).await.map_err(|error| failed(&error))?;
        let bound = match lan {
            Some(lan) => bound.also_on_lan(lan).await.map_err(|error| failed(&error))?,
            None => bound,
        };
        ready(bound.address(), bound.lan());
        bound.run(stop).await;
        Ok(Answer::nothing())
    })
}

/// Done when somebody asks the command to end: Ctrl-C, or the system's own request.
#[cfg(unix)]
fn asked_to_stop() -> std::io::Result<impl Future<Output = ()>> {
    use tokio::signal::unix::{SignalKind, signal};
    let mut interrupt = signal(SignalKind::interrupt())?;
    let mut terminate = signal(SignalKind::terminate())?;
    Ok(async move {
        tokio::select! {
            _ = interrupt.recv() => {}
            _ = terminate.recv() => {}
        }
    })
}

/// Done when somebody presses Ctrl-C.
#[cfg(not(unix))]
fn asked_to_stop() -> std::io::Result<impl Future<Output = ()>> {
    Ok(async {
        if tokio::signal::ctrl_c().await.is_err() {
            std::future::pending::<()>().await;
        }
    })
}

fn no_runtime(error: &std::io::Error) -> Failure {
    Failure::new(Exit::Storage, "cli-no-runtime", &[("detail", error.to_string())])
}

/// Refuses every other address before a store is opened.
pub(super) fn only_this_machine(address: SocketAddr) -> Result<(), Failure> {
    if address.ip().is_loopback() { Ok(()) } else { Err(failed(&ServeError::NotLoopback(address))) }
}

/// An address as a person writes it.
pub(super) fn address(text: &str) -> Result<IpAddr, String> {
    if text.eq_ignore_ascii_case("localhost") {
        return Ok(IpAddr::V4(Ipv4Addr::LOCALHOST));
    }
    text.trim_matches(['[', ']']).parse().map_err(|_| word("cli-not-an-address"))
}

fn failed(error: &ServeError) -> Failure {
    let exit = match error {
        ServeError::NotLoopback(_) => Exit::Refused,
        ServeError::Refused(_) => Exit::Refused,
        ServeError::Bind(..) | ServeError::Store(_) => Exit::Storage,
        ServeError::Certificate(_) => Exit::Input,
    };
    let (says, values, hint) = error.says();
    Failure::new(exit, says, &values).hint(hint)
}

fn page_of(served: &Served) -> Page {
    let mut page = Page::default();
    let values = [("club", served.club.clone()), ("address", served.address.clone())];
    page.line(&say("cli-serving", &values));
    if let Some(lan) = &served.lan {
        page.line(&say("cli-serving-lan", &[("address", lan.name.clone())]));
        for address in &lan.numbers {
            page.line(&say("cli-serving-lan-numbers", &[("address", address.clone())]));
        }
        if let Some(fingerprint) = &lan.fingerprint {
            page.line(&say("cli-serving-lan-trust", &[("fingerprint", fingerprint.clone())]));
        }
    }
    if let Some(today) = &served.today {
        page.line(&say("cli-serving-day", &[("day", today.clone())]));
    }
    let says = if served.keeps { "cli-serving-kept" } else { "cli-serving-gone" };
    page.line(&say(says, &[("store", served.store.clone())]));
    page
}
