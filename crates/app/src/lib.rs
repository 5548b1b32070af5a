//! The practitioner's operations.

pub mod desk;
pub mod error;
pub mod facts;
pub mod history;
pub mod moment;
pub mod text;
pub mod wire;
