//! The store and the protocol that most commands start from.

use std::path::{Path, PathBuf};

use app::desk::{Author, Desk};
use store::{Open, Store};
use trade::protocol::{Protocol, read};

use super::exit::Exit;
use super::failure::{Failure, Trouble};
use super::input::{self, AtMost};
use super::words::say;

/// The largest protocol file.
pub(crate) const PROTOCOL_FILE: AtMost = AtMost(8);

/// Which store, under which protocol.
#[derive(Debug, clap::Args)]
pub(crate) struct StoreArgs {
    /// The club's record file.
    #[arg(long, value_name = "FILE")]
    pub(crate) store: PathBuf,
    /// The protocol in force, instead of the one that is built in.
    #[arg(long, value_name = "FILE")]
    protocol: Option<PathBuf>,
}

impl StoreArgs {
    /// A store under the built-in protocol, for a command that names its store in its own way.
    pub(crate) fn of(store: &Path) -> Self {
        Self { store: store.to_owned(), protocol: None }
    }

    /// Opens both. A store that is refused keeps every byte.
    pub(crate) fn open(&self) -> Result<Desk, Failure> {
        let protocol = protocol(self.protocol.as_deref())?;
        Ok(Desk::new(self.store_only()?, protocol)?)
    }

    /// The store without reading it.
    pub(crate) fn store_only(&self) -> Result<Store, Failure> {
        Store::open(&self.store, Open { create: false }).map_err(|error| Failure::store(&self.store, error))
    }
}

/// Who writes.
#[derive(Debug, clap::Args)]
pub(crate) struct ByArgs {
    /// Who decides: the name that stands in the record.
    #[arg(long, value_name = "NAME")]
    by: String,
}

impl ByArgs {
    /// As the record wants it.
    pub(crate) fn author(&self) -> Author {
        author(&self.by)
    }
}

/// Somebody at a command line.
pub(crate) fn author(name: &str) -> Author {
    Author { name: name.trim().to_owned(), device: "command line".to_owned() }
}

/// The protocol of a file, or the one that is built in.
pub(crate) fn protocol(path: Option<&Path>) -> Result<Protocol, Failure> {
    let Some(path) = path else { return Ok(read::shipped().clone()) };
    let bytes = input::bytes(path, PROTOCOL_FILE)?;
    read::read_bytes(&bytes).map_err(|problems| {
        let file = input::name_of(path);
        let troubles = problems
            .iter()
            .map(|problem| Trouble {
                path: format!("{file}:{}:{}", problem.line, problem.column),
                says: say(problem.says, &problem.args),
            })
            .collect();
        Failure::new(Exit::Input, "cli-protocol-refused", &[("file", file.clone())])
            .hint_with("cli-protocol-refused-hint", &[("file", file)])
            .list(troubles)
    })
}
