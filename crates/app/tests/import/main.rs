//! Import of a club's own files, from bytes to planned facts.

mod desk;
mod docs;
mod examples;
mod files;
mod kit;
mod properties;
mod record;
mod roster;
mod screening;
mod sets;
mod world;
