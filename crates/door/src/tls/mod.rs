//! Encryption on the club's own network.
//!
//! Phones keep nothing offline and lock nothing awake on a page without TLS, and a laptop in a pool hall has no name
//! on the internet. So the laptop makes a certificate authority of its own, once, that can vouch for nothing but
//! `.local` names and private addresses: whoever trusts it on a phone gives away nothing else.
//!
//! - [`authority`]: making it, and certificates under it.
//! - [`certificate`]: what a certificate says.
//! - [`own`]: a certificate that the club brings itself.
//! - [`folder`]: the files, and renewal in time.
//! - [`config`]: what a server needs.

pub mod authority;
pub mod certificate;
pub mod config;
pub mod folder;
pub mod own;

use std::fmt;
use std::io;
use std::net::IpAddr;
use std::path::PathBuf;

use jiff::civil::Date;

/// The name under which phones find the laptop. It must never change: what a phone keeps belongs to this name.
pub const HOST: &str = "cuffwright.local";

/// What the laptop is called on the network.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Names {
    /// Host name.
    pub host: String,
    /// Addresses, for phones that do not find the name.
    pub addresses: Vec<IpAddr>,
}

impl Names {
    /// The stable name, these addresses, and the laptop itself.
    pub fn of_laptop(addresses: &[IpAddr]) -> Self {
        let mut all: Vec<IpAddr> = vec![IpAddr::from([127, 0, 0, 1]), IpAddr::from([0, 0, 0, 0, 0, 0, 0, 1])];
        all.extend(addresses);
        all.sort_unstable();
        all.dedup();
        Self { host: HOST.to_owned(), addresses: all }
    }
}

/// Why there is no certificate to serve with.
#[derive(Debug)]
pub enum TlsError {
    /// A file could not be read or written.
    Io {
        /// Which.
        path: PathBuf,
        /// What the system said.
        source: io::Error,
    },
    /// A key lies open to other users of the laptop.
    OpenKey {
        /// Which.
        path: PathBuf,
    },
    /// The authority's certificate is there without its key, or the key without the certificate. A new authority
    /// would have to be trusted on every phone again, so a person decides.
    HalfAuthority {
        /// What is missing.
        missing: PathBuf,
    },
    /// A file is no certificate or key that can be used.
    Unusable {
        /// Which.
        path: PathBuf,
        /// What is wrong.
        detail: String,
    },
    /// The authority has ended; a new one must be made and trusted.
    AuthorityEnded {
        /// Its last day.
        until: Date,
    },
    /// A certificate could not be made.
    Making {
        /// What is wrong.
        detail: String,
    },
}

impl fmt::Display for TlsError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Io { path, source } => write!(out, "{}: {source}", path.display()),
            Self::OpenKey { path } => write!(out, "{} can be read by other users", path.display()),
            Self::HalfAuthority { missing } => write!(out, "{} is missing", missing.display()),
            Self::Unusable { path, detail } => write!(out, "{}: {detail}", path.display()),
            Self::AuthorityEnded { until } => write!(out, "the certificate authority ended on {until}"),
            Self::Making { detail } => write!(out, "no certificate could be made: {detail}"),
        }
    }
}

impl std::error::Error for TlsError {}

impl From<rcgen::Error> for TlsError {
    fn from(error: rcgen::Error) -> Self {
        Self::Making { detail: error.to_string() }
    }
}
