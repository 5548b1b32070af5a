//! The certificate files in the club's folder: made once, renewed in time, keys for the owner of the folder alone.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use jiff::ToSpan;
use jiff::civil::Date;

use super::authority::{self, Pair};
use super::certificate::{Certificate, read};
use super::{Names, TlsError, config};

/// The authority's certificate: what a phone installs.
pub const AUTHORITY: &str = "authority.pem";
/// The authority's key.
pub const AUTHORITY_KEY: &str = "authority.key";
/// The laptop's certificate.
pub const LAPTOP: &str = "laptop.pem";
/// The laptop's key.
pub const LAPTOP_KEY: &str = "laptop.key";

/// Days before its end on which the laptop's certificate is renewed.
const RENEW_DAYS: i32 = 30;

/// Everything a server needs, and what happened on the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ready {
    /// Certificate and key to serve with.
    pub laptop: Pair,
    /// What the laptop's certificate says.
    pub says: Certificate,
    /// The authority's certificate as PEM, for phones.
    pub authority: String,
    /// What the authority's certificate says.
    pub authority_says: Certificate,
    /// A new authority was made just now: phones must be set up.
    pub new_authority: bool,
    /// The laptop's certificate was issued anew just now.
    pub renewed: bool,
}

/// Makes what is missing, renews what ends or no longer fits the names, and reads the rest.
pub fn ready(folder: &Path, club: &str, names: &Names, today: Date) -> Result<Ready, TlsError> {
    fs::create_dir_all(folder).map_err(|source| TlsError::Io { path: folder.to_owned(), source })?;
    let file = |name: &str| folder.join(name);
    let kept = (text_of(&file(AUTHORITY))?, secret_of(&file(AUTHORITY_KEY))?);
    let (authority, new_authority) = match kept {
        (Some(certificate), Some(key)) => (Pair { certificate, key }, false),
        (None, None) => {
            let made = authority::make(club, today)?;
            keep(&file(AUTHORITY_KEY), &made.key, true)?;
            keep(&file(AUTHORITY), &made.certificate, false)?;
            (made, true)
        }
        (Some(_), None) => return Err(TlsError::HalfAuthority { missing: file(AUTHORITY_KEY) }),
        (None, Some(_)) => return Err(TlsError::HalfAuthority { missing: file(AUTHORITY) }),
    };
    let unusable = |name: &str| {
        let path = file(name);
        move |detail| TlsError::Unusable { path, detail }
    };
    let authority_says = read(&authority.certificate).map_err(unusable(AUTHORITY))?;
    if authority_says.until < today {
        return Err(TlsError::AuthorityEnded { until: authority_says.until });
    }
    let old = match (text_of(&file(LAPTOP))?, secret_of(&file(LAPTOP_KEY))?) {
        (Some(certificate), Some(key)) if !new_authority => fit(Pair { certificate, key }, names, today),
        _ => None,
    };
    let renewed = old.is_none();
    let (laptop, says) = match old {
        Some(fit) => fit,
        None => {
            let made = authority::issue(&authority, names, today)?;
            keep(&file(LAPTOP_KEY), &made.key, true)?;
            keep(&file(LAPTOP), &made.certificate, false)?;
            let says = read(&made.certificate).map_err(unusable(LAPTOP))?;
            (made, says)
        }
    };
    Ok(Ready { laptop, says, authority: authority.certificate, authority_says, new_authority, renewed })
}

/// The pair, if it can be used today and for a while yet, for every one of these names.
fn fit(pair: Pair, names: &Names, today: Date) -> Option<(Pair, Certificate)> {
    let says = read(&pair.certificate).ok()?;
    config::server(&pair.certificate, &pair.key).ok()?;
    let holds = says.holds_for(&names.host)
        && names.addresses.iter().all(|address| says.holds_for(&address.to_string()))
        && says.from <= today
        && today.saturating_add(RENEW_DAYS.days()) <= says.until;
    holds.then_some((pair, says))
}

fn text_of(path: &Path) -> Result<Option<String>, TlsError> {
    match fs::read_to_string(path) {
        Ok(text) => Ok(Some(text)),
        Err(source) if source.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(source) => Err(TlsError::Io { path: path.to_owned(), source }),
    }
}

/// A key, refused where others could have read it.
fn secret_of(path: &Path) -> Result<Option<String>, TlsError> {
    #[cfg(unix)]
    if let Ok(known) = fs::metadata(path) {
        use std::os::unix::fs::PermissionsExt;
        if known.permissions().mode() & 0o077 != 0 {
            return Err(TlsError::OpenKey { path: path.to_owned() });
        }
    }
    text_of(path)
}

/// Writes a file whole or not at all; a secret one for its owner alone from its first moment.
fn keep(path: &Path, text: &str, secret: bool) -> Result<(), TlsError> {
    let part = part_of(path);
    let write = || -> io::Result<()> {
        match fs::remove_file(&part) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
        let mut options = fs::OpenOptions::new();
        options.write(true).create_new(true);
        #[cfg(unix)]
        {
            use std::os::unix::fs::OpenOptionsExt;
            options.mode(if secret { 0o600 } else { 0o644 });
        }
        #[cfg(not(unix))]
        let _ = secret;
        let mut file = options.open(&part)?;
        file.write_all(text.as_bytes())?;
        file.sync_all()?;
        fs::rename(&part, path)
    };
    write().map_err(|source| TlsError::Io { path: path.to_owned(), source })
}

fn part_of(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".part");
    PathBuf::from(name)
}
