//! From TOML text to a protocol, or to every problem with its line and a hint.
