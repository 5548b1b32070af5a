//! The protocol file and its reader.
mod shipped;
