//! The gate and the due list, case by case. Invented people; the shipped protocol unless a case changes it.

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
