//! The timetable from outside: worked stories, brute force, random weeks, published rotas.

mod build;
mod clash;
mod described;
mod oracle;
mod plan;
mod repair;
mod rota;
mod stories;
mod taillard;
mod weeks;
