//! Who may come in, and what they may see and do.
//!
//! Values in, decisions out. Nothing here reads a clock or a database: times are handed in as [`Stamp`]s, rows are the
//! caller's, and random bits come in as bytes ([`fresh`] draws them, for the edge only). Two modules reach further and
//! say so: [`fresh`] (the operating system's random numbers) and [`tls::folder`] (certificate files).
//!
//! In reading order:
//! - [`role`], [`principal`], [`permit`]: who somebody is, and the table of what each role may see and do.
//! - [`policy`], [`password`]: which passwords are taken, and how they are kept.
//! - [`limit`], [`address`]: how often somebody may try, and from where.
//! - [`token`], [`session`]: what a browser or a deck device carries, and how long it holds.
//! - [`code`]: short codes that a person reads aloud or types: pairing, invitation, recovery.
//! - [`listen`], [`tls`], [`qr`]: from which address pages are served, and how.

pub mod address;
pub mod code;
pub mod fresh;
pub mod limit;
pub mod listen;
pub mod password;
pub mod permit;
pub mod policy;
pub mod principal;
pub mod qr;
pub mod role;
pub mod session;
pub mod stamp;
pub mod tls;
pub mod token;

pub use stamp::Stamp;
