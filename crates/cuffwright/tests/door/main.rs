//! The door through the router: who comes in, what each role is shown at every address, and what never leaves.

#![allow(clippy::unwrap_used, reason = "a test that cannot set its stage should stop there")]

#[path = "../../../app/tests/door/build.rs"]
#[allow(dead_code, reason = "shared with the tests of the layer below")]
mod build;
#[path = "../../../app/tests/door/canaries.rs"]
mod canaries;

mod addresses;
mod bodies;
mod entry;
mod matrix;
mod privacy;
mod site;
