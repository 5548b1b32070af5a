//! Rules of the dose, in words.
