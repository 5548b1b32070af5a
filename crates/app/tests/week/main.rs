//! The club's own week: facts in, plan and repair out, feeds read back by a parser that is not ours.

#![allow(clippy::unwrap_used, reason = "a test that cannot set its stage should stop there")]

mod calendars;
mod club;
mod feeds;
mod week;
mod words;
