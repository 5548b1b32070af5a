//! Proofs of the dosing engine: what holds for any record, and the absence table cell by cell.

mod absence;
mod build;
mod properties;
mod records;
mod warnings;
