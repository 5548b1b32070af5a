//! A plot for a terminal: lines as dots of a fine grid, points as letters, ticks at the edge.

use super::{Mark, Plot};

/// A character cell holds two by four dots.
const DOTS: (usize, usize) = (2, 4);

/// Draws lines, steps, points and rules in so many columns and rows of characters. Bands are left to the table.
pub fn text(plot: &Plot<'_>, columns: usize, rows: usize) -> String {
    let (x, y) = plot.scales();
    let (columns, rows) = (columns.clamp(20, 200), rows.clamp(5, 60));
    let (wide, high) = (columns * DOTS.0, rows * DOTS.1);
    let mut dots = vec![vec![false; wide]; high];
    let mut letters: Vec<(usize, usize, char)> = Vec::new();
    let place = |at: (f64, f64)| -> Option<(f64, f64)> {
        let (px, py) = (x.part(at.0), y.part(at.1));
        let inside = (0.0..=1.0).contains(&px) && (0.0..=1.0).contains(&py);
        inside.then_some((px * (wide - 1) as f64, (1.0 - py) * (high - 1) as f64))
    };
    let mut line = |points: &[(f64, f64)]| {
        for pair in points.windows(2) {
            let steps = 4 * wide / points.len().clamp(1, 4 * wide) + 8;
            for step in 0..=steps {
                let part = step as f64 / steps as f64;
                let at =
                    (pair[0].0 + (pair[1].0 - pair[0].0) * part, pair[0].1 + (pair[1].1 - pair[0].1) * part);
                if let Some((column, row)) = place(at) {
                    dots[row.round() as usize][column.round() as usize] = true;
                }
            }
        }
    };
    for mark in &plot.marks {
        match mark {
            Mark::Line { points, .. } => line(points),
            Mark::Steps { points, .. } => {
                let turned: Vec<(f64, f64)> = points
                    .windows(2)
                    .flat_map(|pair| [pair[0], (pair[1].0, pair[0].1)])
                    .chain(points.last().copied())
                    .collect();
                line(&turned);
            }
            Mark::Level { at, .. } => line(&[(x.from, *at), (x.to, *at)]),
            Mark::Moment { at, .. } => line(&[(*at, y.from), (*at, y.to)]),
            Mark::Points { points, .. } => {
                letters.extend(points.iter().filter_map(|at| place(*at)).map(|(column, row)| {
                    (row.round() as usize / DOTS.1, column.round() as usize / DOTS.0, 'o')
                }));
            }
            Mark::Band { .. } | Mark::Intervals { .. } | Mark::Bars { .. } | Mark::Words { .. } => {}
        }
    }
    let margin = y.ticks.iter().map(|tick| tick.words.chars().count()).max().unwrap_or(0);
    let mut lines = vec![plot.y.label.to_owned()];
    for row in 0..rows {
        let on_row = |at: f64| {
            let part = (1.0 - y.part(at)) * (high - 1) as f64;
            (part.round().max(0.0) as usize) / DOTS.1 == row
        };
        let words = y.ticks.iter().find(|tick| on_row(tick.at)).map_or("", |tick| tick.words.as_str());
        let cells: String = (0..columns)
            .map(|column| {
                letters
                    .iter()
                    .find(|(r, c, _)| *r == row && *c == column)
                    .map_or_else(|| cell(&dots, row, column), |(.., letter)| *letter)
            })
            .collect();
        lines.push(format!("{words:>margin$} │{}", cells.trim_end_matches('\u{2800}')));
    }
    lines.push(format!("{:>margin$} └{}", "", "─".repeat(columns)));
    let mut under = vec![' '; margin + 2 + columns + 8];
    for tick in &x.ticks {
        let middle = margin + 2 + (x.part(tick.at) * (columns - 1) as f64).round().max(0.0) as usize;
        let begin = middle.saturating_sub(tick.words.chars().count() / 2);
        for (index, letter) in tick.words.chars().enumerate() {
            if let Some(place) = under.get_mut(begin + index) {
                *place = letter;
            }
        }
    }
    lines.push(under.into_iter().collect::<String>().trim_end().to_owned());
    lines.push(format!("{:>margin$}  {}", "", plot.x.label));
    lines.join("\n")
}

/// Two by four dots as one character; the pattern of bits is that of the Unicode block for such dots.
fn cell(dots: &[Vec<bool>], row: usize, column: usize) -> char {
    const BITS: [[u32; 4]; 2] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];
    let mut bits = 0;
    for (dx, side) in BITS.iter().enumerate() {
        for (dy, bit) in side.iter().enumerate() {
            if dots[row * DOTS.1 + dy][column * DOTS.0 + dx] {
                bits |= bit;
            }
        }
    }
    char::from_u32(0x2800 + bits).unwrap_or(' ')
}
