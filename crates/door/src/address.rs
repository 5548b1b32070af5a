//! From where somebody asks: the laptop itself, the club's own network, or anywhere else.

use std::net::IpAddr;

/// Where an address lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Place {
    /// The laptop itself.
    Laptop,
    /// A private network, or a link of one.
    Private,
    /// Anywhere else.
    Public,
    /// Every address of the laptop at once.
    Every,
}

/// Where an address lies. An IPv4 address dressed as IPv6 is read as what it is.
pub fn place_of(address: IpAddr) -> Place {
    match address.to_canonical() {
        address if address.is_unspecified() => Place::Every,
        address if address.is_loopback() => Place::Laptop,
        IpAddr::V4(four) if four.is_private() || four.is_link_local() => Place::Private,
        IpAddr::V6(six) if six.is_unique_local() || six.is_unicast_link_local() => Place::Private,
        _ => Place::Public,
    }
}

/// What counts as one address when tries are counted: an IPv4 address, or the 64 bits of IPv6 that one household or
/// phone owns as a whole and can vary at will below.
pub fn counted_as(address: IpAddr) -> String {
    match address.to_canonical() {
        IpAddr::V4(four) => four.to_string(),
        IpAddr::V6(six) => {
            let [a, b, c, d, ..] = six.segments();
            format!("{a:x}:{b:x}:{c:x}:{d:x}::/64")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_placed() {
        for (address, place) in [
            ("127.0.0.1", Place::Laptop),
            ("::1", Place::Laptop),
            ("::ffff:127.0.0.1", Place::Laptop),
            ("192.168.1.20", Place::Private),
            ("10.0.0.1", Place::Private),
            ("172.16.0.1", Place::Private),
            ("172.32.0.1", Place::Public),
            ("169.254.1.1", Place::Private),
            ("fe80::1", Place::Private),
            ("fd12::1", Place::Private),
            ("2001:db8::1", Place::Public),
            ("203.0.113.9", Place::Public),
            ("0.0.0.0", Place::Every),
            ("::", Place::Every),
        ] {
            assert_eq!(place_of(address.parse().unwrap()), place, "{address}");
        }
    }

    #[test]
    fn one_owner_of_many_addresses_counts_once() {
        let counted = |text: &str| counted_as(text.parse().unwrap());
        assert_eq!(counted("2001:db8:1:2::1"), counted("2001:db8:1:2:ffff::9"));
        assert_ne!(counted("2001:db8:1:2::1"), counted("2001:db8:1:3::1"));
        assert_eq!(counted("::ffff:192.168.1.9"), "192.168.1.9");
    }
}
