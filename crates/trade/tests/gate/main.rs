//! The gate and the due list, case by case. Invented people; the shipped protocol unless a case changes it.

#![allow(clippy::unwrap_used, reason = "a test that cannot build its case has failed")]
#![allow(unreachable_pub, reason = "the builders are shared by the modules of this one binary")]

mod build;
mod due;
mod findings;
mod growth;
mod pain;
mod papers;
mod properties;
mod repeats;
mod returns;
mod signs;
mod tracks;
mod words;
