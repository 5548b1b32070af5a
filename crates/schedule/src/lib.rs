//! When dryland happens: the week around the water, its repair, the year, the rota on deck.
//!
//! Pure: what is asked comes in as values, what is answered goes out as values. No file, no clock, no chance. A solver
//! that may take long is handed a limit by its caller.
//!
//! Knows no swimmer and no protocol file: groups with a size, times, and the thresholds as [`settings`].
//!
//! In reading order:
//! - [`time`]: stretches of civil time in the club's zone; [`settings`]: every threshold.
//! - [`week`]: what a week is, the hard rules, the plan, the clash, repair, requests.
//! - [`describe`]: a week written down as TOML.
//! - [`fit`]: what fits into the minutes on deck; [`rota`]: groups over stations.
//! - [`year`]: phases, lighter weeks, meets and taper over a season.

pub mod describe;
pub mod fit;
pub mod rota;
pub mod settings;
pub mod time;
pub mod week;
pub mod year;
