//! The deck: what a bag holds, what an outbox amounts to, whatever the order, the losses and the doubles.

#![allow(clippy::unwrap_used, reason = "a test that cannot set its stage should stop there")]

mod bag;
mod outbox;
mod stage;
