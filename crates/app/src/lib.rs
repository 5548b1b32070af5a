//! The practitioner's operations: what a person does with the tool, as plain data in the practitioner's terms.
//!
//! Knows the store and the trade, and neither HTTP nor HTML nor the terminal. The clock is handed in.
//!
//! In reading order:
//! - [`facts`]: the written shape of every fact; [`history`]: from facts to the record that the trade reads.
//! - [`desk`]: one open store with every swimmer as read from it; [`review`] and [`decide`]: what waits, and what a
//!   person says to it.
//! - [`deck`]: a session on deck: what a device gets, what it sends back, what that amounts to.
//! - [`import`]: a club's own files as a preview; [`bring_in`]: the same into the desk.
//! - [`entry`]: accounts, signing in, devices, the audit; [`roles`]: what each role is shown, as a type of its own;
//!   [`privacy`]: consent withdrawn, one person's archive, erasure, retention.
//! - [`numbers`]: statistics of a plain table; [`set_times`], [`year`], [`signals`]: the same of the club's own record.
//! - [`drawn`]: an exercise of the protocol as a movement of a body; [`reckon`]: the torque of that movement.
//! - [`mod@week`]: the timetable around the water: described weeks, the club's own calendar, rotas.
//! - [`screening`]: a screening day, what follows from it, re-tests; [`asking`]: whom to ask this week.
//! - [`load`]: from a club's own files to band laws, torques, ladders and fatigue.
//! - [`text`]: the one catalogue of sentences; [`wire`]: documented JSON shapes.
//! - [`moment`], [`error`].

pub mod asking;
pub mod bring_in;
pub mod decide;
pub mod deck;
pub mod demo;
pub mod desk;
pub mod drawn;
pub mod entry;
pub mod error;
pub mod facts;
pub mod history;
pub mod import;
pub mod load;
pub mod moment;
pub mod numbers;
pub mod privacy;
pub mod reckon;
pub mod review;
pub mod roles;
pub mod screening;
pub mod set_times;
pub mod signals;
pub mod text;
pub mod views;
pub mod week;
pub mod wire;
pub mod year;
