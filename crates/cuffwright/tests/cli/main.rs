//! The built command, run as a shell runs it: what it says, how it ends, and what it leaves behind.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop where it stands")]

mod bring_in;
mod club;
mod decide;
mod defects;
mod explain;
mod loads;
mod log;
mod numbers;
mod propose;
mod protocol;
mod read;
mod reference;
mod run;
mod screening;
mod serving;
mod store_files;
mod text;
mod week;
