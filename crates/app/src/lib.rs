//! The practitioner's operations.

pub mod decide;
pub mod desk;
pub mod error;
pub mod facts;
pub mod history;
pub mod import;
pub mod moment;
pub mod review;
pub mod text;
pub mod wire;
