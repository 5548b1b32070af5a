//! What a person may ask of their own data, and who saw it.
//!
//! - [`consent`]: what was agreed to, item by item, and withdrawing it. [`erase`]: erasing one person.
//! - [`archive`]: one person's whole record. [`audit`]: who saw and changed what.
//! - [`retention`]: for how long records are kept.

pub mod archive;
pub mod audit;
pub mod consent;
pub mod erase;
pub mod retention;
