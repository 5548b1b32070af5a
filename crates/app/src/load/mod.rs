//! From a club's own files to loads: what the commands `band fit`, `torque`, `ladder`, `cut` and `fatigue` answer.
//!
//! Files come in as text and answers go out as documented shapes; nothing is stored. Every problem of a file is
//! listed with its place. The formulas live in `mechanics`.
//!
//! - `columns`: tables with a unit in each head; `fields`: described things with a unit in each key.
//! - [`band`]: readings to a force law. [`movement`]: a description to an exercise; [`torque`]: its answer.
//! - [`kit`]: rolls and weights for one body; [`ladder`]: even steps for one swimmer; [`squad`]: the cut list.
//! - [`fatigue`]: a plan of loads to what is left of the muscle. `refusals`: why not, in the catalogue's sentences.

pub mod band;
mod columns;
pub mod fatigue;
mod fields;
pub mod kit;
pub mod ladder;
pub mod movement;
mod refusals;
pub mod squad;
pub mod torque;
