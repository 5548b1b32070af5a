//! What is computed, against published data and independently worked values in `references/`.
//!
//! Each check is looked up by its id; its values, tolerance and source stand in the folder of its source. A last test
//! fails when a value in `references/` is compared by nothing.

mod references;

mod censored;
mod charts;
mod mixed;
mod rates;
mod reliability;
mod simulated;
mod survival;
