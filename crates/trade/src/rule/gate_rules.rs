//! Rules of the gate, in words.
