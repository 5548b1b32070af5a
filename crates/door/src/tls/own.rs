//! A certificate that the club brings itself, for a name it owns: every trouble is named, not only the first.

use jiff::ToSpan;
use jiff::civil::Date;
use rustls::crypto::ring;
use rustls::pki_types::pem::PemObject;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use rustls::sign::CertifiedKey;

use super::certificate::{Certificate, read};

/// Days before the end from which it is told every day.
const SOON_DAYS: i32 = 21;

/// What is wrong with a certificate and key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Trouble {
    /// The certificate cannot be read.
    Certificate {
        /// What is wrong.
        detail: String,
    },
    /// The key cannot be read.
    Key {
        /// What is wrong.
        detail: String,
    },
    /// They do not belong together.
    Mismatch,
    /// It holds only from a later day.
    NotYet {
        /// That day.
        from: Date,
    },
    /// It has ended.
    Ended {
        /// Its last day.
        until: Date,
    },
    /// It does not hold for the name that phones will use.
    Name {
        /// That name.
        host: String,
        /// For what it holds instead.
        hosts: Vec<String>,
    },
}

/// A certificate that can be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Usable {
    /// What it says.
    pub certificate: Certificate,
    /// It ends within three weeks.
    pub ends_soon: bool,
}

/// Checks a certificate and key that the club brings, for one name on one day.
pub fn check(certificates: &str, key: &str, host: &str, today: Date) -> Result<Usable, Vec<Trouble>> {
    let mut troubles = Vec::new();
    let certificate = read(certificates).map_err(|detail| troubles.push(Trouble::Certificate { detail }));
    let key = PrivateKeyDer::from_pem_slice(key.as_bytes())
        .map_err(|error| error.to_string())
        .and_then(|key| {
            let provider = ring::default_provider();
            provider.key_provider.load_private_key(key).map_err(|error| error.to_string())
        })
        .map_err(|detail| troubles.push(Trouble::Key { detail }));
    if let Ok(certificate) = &certificate {
        if today < certificate.from {
            troubles.push(Trouble::NotYet { from: certificate.from });
        }
        if certificate.until < today {
            troubles.push(Trouble::Ended { until: certificate.until });
        }
        if !certificate.holds_for(host) {
            let hosts = certificate.hosts.clone();
            troubles.push(Trouble::Name { host: host.to_owned(), hosts });
        }
    }
    if let (Ok(_), Ok(key)) = (&certificate, key) {
        let chain: Result<Vec<_>, _> = CertificateDer::pem_slice_iter(certificates.as_bytes()).collect();
        let matches = chain.is_ok_and(|chain| CertifiedKey::new(chain, key).keys_match().is_ok());
        if !matches {
            troubles.push(Trouble::Mismatch);
        }
    }
    match certificate {
        Ok(certificate) if troubles.is_empty() => {
            let ends_soon = certificate.until < today.saturating_add(SOON_DAYS.days());
            Ok(Usable { certificate, ends_soon })
        }
        _ => Err(troubles),
    }
}
