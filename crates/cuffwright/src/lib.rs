//! The edge of Cuffwright: the pages a browser reads and the commands a shell runs.
//!
//! Knows HTTP, HTML and the command line, and decides nothing: every verdict comes from below, with its reason.

pub mod cli;
pub mod web;
