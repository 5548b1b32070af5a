//! House rules as tests: what the compiler cannot see and a reviewer would have to remember.

mod arrows;
mod catalogue;
mod hazards;
mod headers;
mod licences;
mod sources;
