//! The practitioner's operations.

pub mod facts;
