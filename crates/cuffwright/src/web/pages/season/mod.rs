//! The season on one page for the board, and the set times with their record of past predictions.
//!
//! - [`board`]: counts, rates, strength, and what cannot be shown.
//! - [`charts`]: whose line moved, and the load.
//! - [`set_times`]: what to expect next time, and whether such words were right.

pub mod board;
pub mod charts;
pub mod set_times;

use app::year::Figure;
use maud::{Markup, html};
use stats::lack::Lack;
use stats::level::Interval;

use crate::web::words::{Value, say, text};

/// A number with so many decimals.
fn fixed(value: f64, decimals: usize) -> String {
    if value.is_finite() { format!("{value:.decimals$}") } else { text("board-no-bound") }
}

/// A range with so many decimals.
fn range(interval: Interval, decimals: usize) -> String {
    let (low, high) = (fixed(interval.low, decimals), fixed(interval.high, decimals));
    say("board-range", &[("low", Value::Words(&low)), ("high", Value::Words(&high))])
}

/// Why something cannot be told.
fn why(lack: &Lack) -> String {
    app::numbers::reason(lack)
}

/// A figure that is hidden or cannot be told, in words; nothing where it is shown.
fn not_shown<T>(figure: &Figure<T>) -> Option<String> {
    match figure {
        Figure::Shown(_) => None,
        Figure::Hidden => Some(text("board-hidden")),
        Figure::Lacks(lack) => Some(say("board-not-told", &[("why", Value::Words(&why(lack)))])),
    }
}

/// A plot with its table behind it.
fn plot(plot: &picture::plot::Plot<'_>, decimals: (usize, usize)) -> Markup {
    let twin = picture::plot::Twin::of(plot, decimals, 40);
    html! {
        figure.plot-figure { (picture::plot::svg(plot, picture::Ink::Roles)) }
        details.plot-twin { summary { (text("board-as-table")) } (twin.html()) }
    }
}
