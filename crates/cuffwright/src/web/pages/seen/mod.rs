//! What everybody but the practitioner sees of swimmers. Every word on these pages comes out of a role's own type
//! (`app::roles`), so that what the type cannot hold cannot be shown.
//!
//! - [`list`]: everybody whom a role may see; [`one`]: one swimmer; [`parts`]: what both draw.

pub mod list;
pub mod one;
pub mod parts;
