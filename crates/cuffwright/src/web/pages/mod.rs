//! What stands at each address. A page function reads the desk and gives back a page; a form function records
//! facts and leads on.
//!
//! - [`shared`]: words that many pages need.
//! - [`due`], [`review`]: the day and what waits for a person.
//! - [`home`]: where somebody begins.
//! - [`people`], [`person`]: the swimmers, for the practitioner; [`seen`], [`views`]: for everybody else.
//! - [`door`]: coming in, accounts, devices; [`privacy`]: consent, erasure, archive, audit.
//! - [`see_as`]: the demo, as others see it.
//! - [`record`]: every form by which a fact is written down.
//! - [`facts`]: one fact: look at it, put it right, take it back.
//! - [`session`]: a session written down by hand.
//! - [`screening`]: a screening day, what follows, what changed; [`weekly`]: the weekly check and the water.
//! - [`asking`]: whom to ask, on the day's page.
//! - [`kit`], [`band`], [`what_if`], [`rules`]: what the club owns and what it pulls, and every number with its source.
//! - [`season`]: the season and the set times.
//! - [`week`], [`year`]: the timetable around the water, and the season.
//! - [`first`], [`club`], [`import`]: what a newcomer sees, who the club is, the club's own files.

pub mod asking;
pub mod band;
pub mod club;
pub mod deck;
pub mod door;
pub mod due;
pub mod facts;
pub mod first;
pub mod home;
pub mod import;
pub mod kit;
pub mod people;
pub mod person;
pub mod privacy;
pub mod record;
pub mod review;
pub mod rules;
pub mod screening;
pub mod season;
pub mod see_as;
pub mod seen;
pub mod session;
pub mod shared;
pub mod views;
pub mod week;
pub mod weekly;
pub mod what_if;
pub mod year;
