//! The pages: routes, layout, building blocks and the headers they leave with.
//!
//! Everything but the live console is rendered on the server and works without JavaScript. In reading order:
//! - [`words`]: the page words, from the text catalogue.
//! - [`layout`]: the shell around every page: places, cautions, skip link.
//! - [`rope`]: a set drawn as a lane rope, the signature mark.
//! - [`parts`]: the other building blocks.
//! - [`assets`], [`console`] and [`respond`]: embedded files, the live console's modules, and how an answer leaves.
//! - [`error`]: one error, turned into a page with a way on.
//! - [`site`]: what requests share, who may ask, and the socket.
//! - [`routes`]: every address.
//! - [`pages`]: what stands there.

pub mod assets;
pub mod console;
pub mod error;
pub mod layout;
pub mod pages;
pub mod parts;
pub mod respond;
pub mod rope;
pub mod routes;
pub mod site;
pub mod words;

pub use site::on_lan::{Files, LanSettings};
pub use site::serve::{Bound, ServeError, Settings, bind, serve};
