//! From which address pages may be served.

use std::net::IpAddr;

use crate::address::{Place, place_of};

/// Whether the connection is encrypted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tls {
    /// Yes.
    On,
    /// No.
    Off,
}

/// Why an address is refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// Others could reach the records, and nobody has an account yet.
    NoAccounts,
    /// Others could reach the records, and could listen in on the network.
    NoTls,
    /// The address is not one of a private network: this is a club's laptop, not a server on the internet.
    Public,
}

/// The loopback address may always be served; every other only with accounts and encryption. `accounts` counts those
/// that somebody can sign in to.
pub fn may_listen(address: IpAddr, accounts: usize, tls: Tls) -> Result<(), Refusal> {
    match place_of(address) {
        Place::Laptop => Ok(()),
        Place::Public => Err(Refusal::Public),
        Place::Private | Place::Every if accounts == 0 => Err(Refusal::NoAccounts),
        Place::Private | Place::Every => match tls {
            Tls::On => Ok(()),
            Tls::Off => Err(Refusal::NoTls),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn beyond_the_laptop_only_with_accounts_and_encryption() {
        let may = |address: &str, accounts, tls| may_listen(address.parse().unwrap(), accounts, tls);
        for address in ["127.0.0.1", "::1", "127.8.8.8"] {
            assert_eq!(may(address, 0, Tls::Off), Ok(()), "{address}");
        }
        for address in ["192.168.1.20", "10.1.2.3", "0.0.0.0", "::", "fe80::1", "fd00::1"] {
            assert_eq!(may(address, 0, Tls::On), Err(Refusal::NoAccounts), "{address}");
            assert_eq!(may(address, 0, Tls::Off), Err(Refusal::NoAccounts), "{address}");
            assert_eq!(may(address, 1, Tls::Off), Err(Refusal::NoTls), "{address}");
            assert_eq!(may(address, 1, Tls::On), Ok(()), "{address}");
        }
        assert_eq!(may("203.0.113.9", 9, Tls::On), Err(Refusal::Public));
    }
}
