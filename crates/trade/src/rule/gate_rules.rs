//! Rules of the gate, in words.

use super::Rule;

/// Every rule of the gate.
pub const RULES: &[Rule] = &[];
