//! What follows from a screening, what a re-test changed, whom to ask: against the figures of the evidence handbook.

#![allow(clippy::unwrap_used, reason = "helpers of tests stop where a test would")]
#![allow(unreachable_pub, reason = "the builders are shared by the modules of this one binary")]

#[path = "../gate/build.rs"]
#[allow(dead_code, reason = "the builder serves several test binaries")]
mod build;

mod asks;
mod derived;
mod retest;
