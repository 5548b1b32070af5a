//! The practitioner's operations.

pub mod facts;
pub mod import;
