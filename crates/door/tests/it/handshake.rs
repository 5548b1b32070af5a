//! A phone that trusts the club's authority, in memory: what it accepts and what it refuses.

use std::net::IpAddr;
use std::sync::Arc;
use std::time::Duration;

use door::tls::authority::{Pair, issue, make};
use door::tls::{HOST, Names, config};
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use rustls::pki_types::pem::PemObject;
use rustls::pki_types::{CertificateDer, ServerName, UnixTime};
use rustls::time_provider::TimeProvider;
use rustls::{ClientConfig, ClientConnection, RootCertStore, ServerConnection};

pub(crate) const TODAY: Date = date(2026, 3, 9);

#[derive(Debug)]
struct Noon(Date);

impl TimeProvider for Noon {
    fn current_time(&self) -> Option<UnixTime> {
        let noon = TimeZone::UTC.to_timestamp(self.0.at(12, 0, 0, 0)).ok()?;
        Some(UnixTime::since_unix_epoch(Duration::from_secs(noon.as_second().unsigned_abs())))
    }
}

/// Whether a phone that trusts this authority talks to this server under this name on this day.
pub(crate) fn talks(authority: &str, laptop: &Pair, name: &str, on: Date) -> Result<(), String> {
    let mut roots = RootCertStore::empty();
    roots.add(CertificateDer::from_pem_slice(authority.as_bytes()).unwrap()).unwrap();
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let client = ClientConfig::builder_with_details(provider, Arc::new(Noon(on)))
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    let name = ServerName::try_from(name.to_owned()).unwrap();
    let mut client = ClientConnection::new(Arc::new(client), name).unwrap();
    let mut server =
        ServerConnection::new(config::server(&laptop.certificate, &laptop.key).unwrap()).unwrap();
    for _ in 0..10 {
        let mut wire = Vec::new();
        while client.wants_write() {
            client.write_tls(&mut wire).unwrap();
        }
        server.read_tls(&mut wire.as_slice()).unwrap();
        server.process_new_packets().map_err(|error| error.to_string())?;
        let mut wire = Vec::new();
        while server.wants_write() {
            server.write_tls(&mut wire).unwrap();
        }
        client.read_tls(&mut wire.as_slice()).unwrap();
        client.process_new_packets().map_err(|error| error.to_string())?;
    }
    match client.is_handshaking() || server.is_handshaking() {
        true => Err("never done".to_owned()),
        false => Ok(()),
    }
}

fn names(host: &str, addresses: &[&str]) -> Names {
    let addresses: Vec<IpAddr> = addresses.iter().map(|text| text.parse().unwrap()).collect();
    Names { host: host.to_owned(), addresses }
}

#[test]
fn a_phone_that_trusts_the_authority_talks_to_the_laptop_by_name_and_address() {
    let authority = make("Harbour Club", TODAY).unwrap();
    let laptop = issue(&authority, &names(HOST, &["192.168.1.20", "fd12::20", "127.0.0.1"]), TODAY).unwrap();
    for name in [HOST, "192.168.1.20", "fd12::20", "127.0.0.1"] {
        assert_eq!(talks(&authority.certificate, &laptop, name, TODAY), Ok(()), "{name}");
    }
    for name in ["other.local", "192.168.1.21"] {
        assert!(talks(&authority.certificate, &laptop, name, TODAY).is_err(), "{name}");
    }
}

#[test]
fn a_phone_refuses_what_the_authority_may_not_vouch_for() {
    let authority = make("Harbour Club", TODAY).unwrap();
    for (host, address, name) in [
        ("bank.example", "192.168.1.20", "bank.example"),
        ("cuffwright.local.example", "192.168.1.20", "cuffwright.local.example"),
        (HOST, "203.0.113.5", "203.0.113.5"),
        (HOST, "2001:db8::5", "2001:db8::5"),
    ] {
        // A thief of the authority's key can sign it, but no phone takes it.
        let stolen = issue(&authority, &names(host, &[address]), TODAY).unwrap();
        let said = talks(&authority.certificate, &stolen, name, TODAY).unwrap_err();
        assert!(said.contains("NameConstraint"), "{name}: {said}");
    }
}

#[test]
fn a_phone_refuses_another_clubs_laptop_and_one_that_has_ended() {
    let ours = make("Harbour Club", TODAY).unwrap();
    let theirs = make("Harbour Club", TODAY).unwrap();
    let laptop = issue(&theirs, &names(HOST, &["10.0.0.2"]), TODAY).unwrap();
    assert!(talks(&ours.certificate, &laptop, HOST, TODAY).is_err());
    assert_eq!(talks(&theirs.certificate, &laptop, HOST, date(2026, 6, 6)), Ok(()));
    assert!(talks(&theirs.certificate, &laptop, HOST, date(2026, 6, 8)).is_err());
    assert!(talks(&theirs.certificate, &laptop, HOST, date(2026, 3, 6)).is_err());
}
