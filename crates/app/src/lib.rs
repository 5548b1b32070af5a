//! The practitioner's operations.

pub mod decide;
pub mod demo;
pub mod desk;
pub mod error;
pub mod facts;
pub mod history;
pub mod moment;
pub mod review;
pub mod text;
pub mod wire;
