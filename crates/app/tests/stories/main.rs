//! The worked stories: each case file under `/stories` is answered by the engine and compared with what it expects.

mod case;
mod index;
