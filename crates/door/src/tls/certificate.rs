//! What a certificate says: names, days, and whether it may vouch for others.

use std::net::IpAddr;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use rustls::pki_types::CertificateDer;
use rustls::pki_types::pem::PemObject;
use x509_parser::extensions::GeneralName;
use x509_parser::prelude::{FromDer, X509Certificate};

/// What a certificate says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Certificate {
    /// First day, by universal time.
    pub from: Date,
    /// Last whole day before the day on which it ends, by universal time.
    pub until: Date,
    /// Host names.
    pub hosts: Vec<String>,
    /// Addresses.
    pub addresses: Vec<IpAddr>,
    /// May vouch for others.
    pub is_authority: bool,
    /// SHA-256 of the whole, in pairs of digits: what a person compares between laptop and phone.
    pub fingerprint: String,
}

/// Reads the first certificate of a PEM text.
pub fn read(pem: &str) -> Result<Certificate, String> {
    let der = CertificateDer::from_pem_slice(pem.as_bytes()).map_err(|error| error.to_string())?;
    let (_, parsed) = X509Certificate::from_der(&der).map_err(|error| error.to_string())?;
    let mut hosts = Vec::new();
    let mut addresses = Vec::new();
    let names = parsed.subject_alternative_name().map_err(|error| error.to_string())?;
    for name in names.iter().flat_map(|names| &names.value.general_names) {
        match name {
            GeneralName::DNSName(host) => hosts.push((*host).to_owned()),
            GeneralName::IPAddress(bytes) => addresses.extend(address(bytes)),
            _ => {}
        }
    }
    let ends = day(parsed.validity().not_after.timestamp())?;
    Ok(Certificate {
        from: day(parsed.validity().not_before.timestamp())?,
        until: ends.yesterday().map_err(|error| error.to_string())?,
        hosts,
        addresses,
        is_authority: parsed.is_ca(),
        fingerprint: fingerprint(&der),
    })
}

impl Certificate {
    /// Holds for this host or address. A star stands for one label, as browsers read it.
    pub fn holds_for(&self, host: &str) -> bool {
        if let Ok(address) = host.parse::<IpAddr>() {
            return self.addresses.contains(&address);
        }
        self.hosts.iter().any(|known| {
            known.eq_ignore_ascii_case(host)
                || known.strip_prefix("*.").is_some_and(|zone| {
                    host.split_once('.').is_some_and(|(_, rest)| rest.eq_ignore_ascii_case(zone))
                })
        })
    }
}

fn address(bytes: &[u8]) -> Option<IpAddr> {
    <[u8; 4]>::try_from(bytes)
        .map(IpAddr::from)
        .or_else(|_| <[u8; 16]>::try_from(bytes).map(IpAddr::from))
        .ok()
}

fn day(seconds: i64) -> Result<Date, String> {
    let instant = Timestamp::from_second(seconds).map_err(|error| error.to_string())?;
    Ok(TimeZone::UTC.to_datetime(instant).date())
}

fn fingerprint(der: &[u8]) -> String {
    use sha2::{Digest, Sha256};
    let pairs: Vec<String> = Sha256::digest(der).iter().map(|byte| format!("{byte:02X}")).collect();
    pairs.join(" ")
}
