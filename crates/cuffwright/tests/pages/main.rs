//! The pages through the router, in process: status, headers, and a few nodes by id.

#![allow(clippy::unwrap_used, reason = "a test that cannot set its stage should stop there")]

mod due;
mod every;
mod facts;
mod guard;
mod import;
mod person;
mod record;
mod review;
mod rules;
mod scale;
mod screening;
mod session;
mod site;
mod week;
