//! What must hold for any data: order of rows and units never matter, and data that carry no answer get a name.

mod degenerate;
mod invariance;
mod quadrature;
