//! The practitioner's operations.

pub mod facts;
pub mod history;
pub mod text;
pub mod wire;
