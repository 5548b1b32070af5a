//! The club's own certificate authority, and certificates under it.

use jiff::ToSpan;
use jiff::civil::Date;
use rcgen::{
    BasicConstraints, CertificateParams, CidrSubnet, DistinguishedName, DnType, ExtendedKeyUsagePurpose,
    GeneralSubtree, IsCa, Issuer, KeyPair, KeyUsagePurpose, NameConstraints, date_time_ymd,
};

use super::{Names, TlsError};

/// Years an authority holds: a phone is set up once.
const AUTHORITY_YEARS: i16 = 10;
/// Days a certificate of the laptop holds: well below what phones accept, and renewed long before.
const LEAF_DAYS: i32 = 90;

/// A certificate and its private key, both as PEM.
#[derive(Clone, PartialEq, Eq)]
pub struct Pair {
    /// Certificate.
    pub certificate: String,
    /// Private key.
    pub key: String,
}

impl std::fmt::Debug for Pair {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Pair").field("certificate", &self.certificate).finish_non_exhaustive()
    }
}

/// Makes an authority for a club. Draws a random key: for the edge only.
pub fn make(club: &str, today: Date) -> Result<Pair, TlsError> {
    let mut params = CertificateParams::default();
    let club: String = club.chars().filter(|letter| !letter.is_control()).take(40).collect();
    params.distinguished_name = named(&format!("Cuffwright on the laptop of {}, {today}", club.trim()));
    params.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    params.key_usages = vec![KeyUsagePurpose::KeyCertSign, KeyUsagePurpose::CrlSign];
    params.name_constraints =
        Some(NameConstraints { permitted_subtrees: permitted(), excluded_subtrees: Vec::new() });
    valid(&mut params, today, today.saturating_add(AUTHORITY_YEARS.years()));
    let key = KeyPair::generate()?;
    let certificate = params.self_signed(&key)?;
    Ok(Pair { certificate: certificate.pem(), key: key.serialize_pem() })
}

/// Issues a certificate for the laptop. Draws a random key: for the edge only.
pub fn issue(authority: &Pair, names: &Names, today: Date) -> Result<Pair, TlsError> {
    let issuer = Issuer::from_ca_cert_pem(&authority.certificate, KeyPair::from_pem(&authority.key)?)?;
    let mut all = vec![names.host.clone()];
    all.extend(names.addresses.iter().map(ToString::to_string));
    let mut params = CertificateParams::new(all)?;
    params.distinguished_name = named(&names.host);
    params.is_ca = IsCa::ExplicitNoCa;
    params.key_usages = vec![KeyUsagePurpose::DigitalSignature];
    params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
    params.use_authority_key_identifier_extension = true;
    valid(&mut params, today, today.saturating_add(LEAF_DAYS.days()));
    let key = KeyPair::generate()?;
    let certificate = params.signed_by(&key, &issuer)?;
    Ok(Pair { certificate: certificate.pem(), key: key.serialize_pem() })
}

/// What the authority may vouch for: `.local` names and addresses of the laptop itself and of private networks
/// (RFC 1918, 3927, 4193, 4291), and nothing else.
fn permitted() -> Vec<GeneralSubtree> {
    let four = [
        ([127, 0, 0, 0], 8),
        ([10, 0, 0, 0], 8),
        ([172, 16, 0, 0], 12),
        ([192, 168, 0, 0], 16),
        ([169, 254, 0, 0], 16),
    ];
    let six: [([u16; 8], u8); 3] = [
        ([0, 0, 0, 0, 0, 0, 0, 1], 128),
        ([0xfc00, 0, 0, 0, 0, 0, 0, 0], 7),
        ([0xfe80, 0, 0, 0, 0, 0, 0, 0], 10),
    ];
    let mut all = vec![GeneralSubtree::DnsName("local".to_owned())];
    all.extend(
        four.map(|(start, prefix)| GeneralSubtree::IpAddress(CidrSubnet::from_v4_prefix(start, prefix))),
    );
    all.extend(six.map(|(start, prefix)| {
        let start = std::net::Ipv6Addr::from(start).octets();
        GeneralSubtree::IpAddress(CidrSubnet::from_v6_prefix(start, prefix))
    }));
    all
}

fn named(name: &str) -> DistinguishedName {
    let mut full = DistinguishedName::new();
    full.push(DnType::CommonName, name);
    full
}

/// From the day before, since a phone's clock may lag, to the given day.
fn valid(params: &mut CertificateParams, today: Date, until: Date) {
    let midnight = |day: Date| {
        date_time_ymd(i32::from(day.year()), day.month().unsigned_abs(), day.day().unsigned_abs())
    };
    params.not_before = midnight(today.yesterday().unwrap_or(today));
    params.not_after = midnight(until);
}
