//! The table that says the same as a plot.

use maud::{Markup, html};

use super::{Mark, Plot};
use crate::number::trimmed;

/// A table of numbers in words, ready for a page, a sheet or a terminal.
#[derive(Debug, Clone, PartialEq)]
pub struct Twin {
    /// What it is.
    pub name: String,
    /// Head of every column; the first is across.
    pub heads: Vec<String>,
    /// Rows, each as long as the heads; an empty cell was not measured there.
    pub rows: Vec<Vec<String>>,
    /// Lines that stand across the plot, in words: name and value.
    pub lines: Vec<(String, String)>,
}

impl Twin {
    /// The table of a plot, with so many decimals across and up. Long series keep at most so many rows, first and last
    /// included; single readings are all kept.
    pub fn of(plot: &Plot<'_>, decimals: (usize, usize), most_rows: usize) -> Self {
        let (across, up) = decimals;
        let mut columns: Vec<(String, Vec<(f64, String)>)> = Vec::new();
        let mut lines = Vec::new();
        let value = |value: f64| if value.is_finite() { trimmed(value, up) } else { String::new() };
        for mark in &plot.marks {
            match mark {
                Mark::Line { name, points, .. } | Mark::Steps { name, points, .. } if !name.is_empty() => {
                    let cells = thinned(points, most_rows).into_iter().map(|(x, y)| (x, value(y))).collect();
                    columns.push(((*name).to_owned(), cells));
                }
                Mark::Points { name, points, .. } | Mark::Bars { name, bars: points, .. }
                    if !name.is_empty() =>
                {
                    columns.push(((*name).to_owned(), points.iter().map(|(x, y)| (*x, value(*y))).collect()));
                }
                Mark::Band { name, points, .. } if !name.is_empty() => {
                    let points: Vec<(f64, (f64, f64))> =
                        points.iter().map(|(x, low, high)| (*x, (*low, *high))).collect();
                    let cells = thinned(&points, most_rows)
                        .into_iter()
                        .map(|(x, (low, high))| (x, format!("{} – {}", value(low), value(high))))
                        .collect();
                    columns.push(((*name).to_owned(), cells));
                }
                Mark::Intervals { name, points, .. } if !name.is_empty() => {
                    let cells = points
                        .iter()
                        .map(|(x, low, at, high)| {
                            (*x, format!("{} ({} – {})", value(*at), value(*low), value(*high)))
                        })
                        .collect();
                    columns.push(((*name).to_owned(), cells));
                }
                Mark::Level { name, at, .. } if !name.is_empty() => {
                    lines.push(((*name).to_owned(), trimmed(*at, up)));
                }
                Mark::Moment { name, at, .. } if !name.is_empty() => {
                    lines.push(((*name).to_owned(), trimmed(*at, across)));
                }
                _ => {}
            }
        }
        let mut places: Vec<f64> = columns
            .iter()
            .flat_map(|(_, cells)| cells.iter().map(|(x, _)| *x))
            .filter(|x| x.is_finite())
            .collect();
        places.sort_by(f64::total_cmp);
        places.dedup();
        let named = |at: f64| {
            let word =
                plot.x.named.iter().find(|(named, _)| *named == at).map(|(_, word)| (*word).to_owned());
            word.unwrap_or_else(|| trimmed(at, across))
        };
        let rows = places
            .iter()
            .map(|at| {
                let cell = |(_, cells): &(String, Vec<(f64, String)>)| {
                    let found: Vec<&str> =
                        cells.iter().filter(|(x, _)| x == at).map(|(_, text)| text.as_str()).collect();
                    found.join("; ")
                };
                std::iter::once(named(*at)).chain(columns.iter().map(cell)).collect()
            })
            .collect();
        let heads =
            std::iter::once(plot.x.label.to_owned()).chain(columns.iter().map(|(name, _)| name.clone()));
        Self { name: plot.name.to_owned(), heads: heads.collect(), rows, lines }
    }

    /// As a plain table; a page may draw its own from the fields.
    pub fn html(&self) -> Markup {
        html! {
            table.plot-twin {
                caption { (self.name) }
                thead { tr { @for head in &self.heads { th scope="col" { (head) } } } }
                tbody {
                    @for row in &self.rows {
                        tr { @for (index, cell) in row.iter().enumerate() {
                            @if index == 0 { th scope="row" { (cell) } } @else { td { (cell) } }
                        } }
                    }
                }
            }
            @if !self.lines.is_empty() {
                dl.plot-lines { @for (name, value) in &self.lines { dt { (name) } dd { (value) } } }
            }
        }
    }
}

/// Evenly chosen points, ends included.
fn thinned<T: Copy>(points: &[(f64, T)], most: usize) -> Vec<(f64, T)> {
    let most = most.max(2);
    if points.len() <= most {
        return points.to_vec();
    }
    let last = points.len() - 1;
    (0..most).map(|index| points[(index * last + (most - 1) / 2) / (most - 1)]).collect()
}
