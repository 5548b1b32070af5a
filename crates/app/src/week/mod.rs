//! The timetable: a week described in a file, the club's own calendar, the rota on deck.
//!
//! The arithmetic is in the crate `schedule`; here values become words, and facts become a week.
//!
//! - [`say`]: requirements, reasons and moves in words.
//! - [`described`]: the answer to a week described as TOML; [`rota`]: the answer to a table of minutes; [`fit`]: what fits
//!   into the minutes on deck.
//! - [`timetable`]: the entries on record; [`stored`]: the club's own week; [`act`]: what a person does with it.
//! - [`feed`]: iCalendar and CSV out; [`calendar_file`]: the same in; [`season`]: the year.

pub mod act;
pub mod calendar_file;
pub mod described;
pub mod feed;
pub mod fit;
pub mod rota;
pub mod say;
pub mod season;
pub mod stored;
pub mod timetable;
