//! How phones reach this laptop, where it is served on the club's network.

use std::net::IpAddr;

use jiff::civil::Date;

/// The laptop on the club's network.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lan {
    /// Its stable name.
    pub host: String,
    /// Its addresses, for phones that do not find the name.
    pub addresses: Vec<IpAddr>,
    /// The port.
    pub port: u16,
    /// The laptop's own authority; none where the club brings a certificate of its own.
    pub authority: Option<Authority>,
    /// Last day of the certificate in use.
    pub until: Date,
}

/// What a phone must trust.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Authority {
    /// The certificate as PEM.
    pub pem: String,
    /// What a person compares between laptop and phone.
    pub fingerprint: String,
}

impl Lan {
    /// Names and addresses under which it is asked, as they stand in a request.
    pub fn hosts(&self) -> Vec<String> {
        let shown = |address: &IpAddr| match address {
            IpAddr::V4(four) => four.to_string(),
            IpAddr::V6(six) => format!("[{six}]"),
        };
        std::iter::once(self.host.clone()).chain(self.addresses.iter().map(shown)).collect()
    }

    /// The address of a path, by the stable name.
    pub fn address(&self, path: &str) -> String {
        self.at(&self.host, path)
    }

    /// The addresses of a path by numbers.
    pub fn numbers(&self, path: &str) -> Vec<String> {
        self.hosts().iter().skip(1).map(|host| self.at(host, path)).collect()
    }

    fn at(&self, host: &str, path: &str) -> String {
        if self.port == 443 {
            format!("https://{host}{path}")
        } else {
            format!("https://{host}:{}{path}", self.port)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_are_written_as_browsers_write_them() {
        let lan = Lan {
            host: "cuffwright.local".into(),
            addresses: vec!["192.168.1.7".parse().unwrap(), "fd00::7".parse().unwrap()],
            port: 7418,
            authority: None,
            until: jiff::civil::date(2027, 2, 1),
        };
        assert_eq!(lan.address("/pair"), "https://cuffwright.local:7418/pair");
        assert_eq!(lan.numbers("/"), ["https://192.168.1.7:7418/", "https://[fd00::7]:7418/"]);
        assert_eq!(Lan { port: 443, ..lan }.address("/"), "https://cuffwright.local/");
    }
}
