//! The door through its public surface: certificates as a phone judges them.

#![expect(clippy::unwrap_used, reason = "a test ends at the first surprise, helpers included")]

mod handshake;
mod tls_files;
