//! The live console in a real browser, against the real command: network cut, page reloaded, server killed.

#![allow(clippy::unwrap_used, reason = "a test that cannot set its stage should stop there")]

mod console;
mod look;
mod stage;
mod survive;
