//! Columns that explain: numbers as they are, words as one column for each level but the first.

use std::collections::BTreeSet;

use super::cell::{self, Cell};
use super::columns::{find, is_label};
use super::grid::Grid;
use crate::error::{AppError, ErrorKind};

/// Which columns explain.
#[derive(Debug, Clone, Default)]
pub struct Choice {
    /// Only these; all that are left when empty.
    pub only: Vec<String>,
    /// Not these.
    pub ignore: Vec<String>,
    /// None at all.
    pub none: bool,
}

/// Columns of numbers, ready for a model.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Covariates {
    /// What each is called; `arm=control` for a level.
    pub(super) names: Vec<String>,
    /// The values of each row; nothing where one is missing.
    pub(super) rows: Vec<Option<Vec<f64>>>,
    /// Columns that were left alone because they only count or name rows.
    pub(super) not_used: Vec<String>,
}

/// Most levels a column of words may have.
const MOST_LEVELS: usize = 20;

/// Reads the columns that explain: those chosen, or all that are not taken.
pub(super) fn read(grid: &Grid, choice: &Choice, taken: &[usize]) -> Result<Covariates, AppError> {
    let place_of = |name: &String| find(grid, Some(name), &[], &[]).map(|place| place.unwrap_or(0));
    let only = choice.only.iter().map(place_of).collect::<Result<Vec<_>, _>>()?;
    let ignore = choice.ignore.iter().map(place_of).collect::<Result<Vec<_>, _>>()?;
    let places: Vec<usize> = if choice.none {
        Vec::new()
    } else if only.is_empty() {
        let free = |place: &usize| !taken.contains(place) && !ignore.contains(place);
        (0..grid.heads.len()).filter(|place| free(place) && !is_label(&grid.heads[*place])).collect()
    } else {
        only
    };
    let mut out =
        Covariates { names: Vec::new(), rows: vec![Some(Vec::new()); grid.rows.len()], not_used: Vec::new() };
    out.not_used = (0..grid.heads.len())
        .filter(|place| !taken.contains(place) && !places.contains(place) && !grid.heads[*place].is_empty())
        .map(|place| grid.heads[place].clone())
        .collect();
    for place in places {
        let cells: Vec<Cell> = grid.rows.iter().map(|row| cell::read(&row[place])).collect();
        let head = &grid.heads[place];
        if cells.iter().all(|cell| *cell == Cell::Missing) {
            continue;
        }
        if cells.iter().all(|cell| !matches!(cell, Cell::Text(_))) {
            out.names.push(head.clone());
            for (row, cell) in out.rows.iter_mut().zip(&cells) {
                push(
                    row,
                    match cell {
                        Cell::Number(value) => Some(*value),
                        _ => None,
                    },
                );
            }
            continue;
        }
        let label = |row: &Vec<String>| row[place].trim().to_owned();
        let named = grid.rows.iter().zip(&cells).filter(|(_, cell)| **cell != Cell::Missing);
        let levels: BTreeSet<String> = named.map(|(row, _)| label(row)).collect();
        if MOST_LEVELS < levels.len() {
            return Err(AppError::new(ErrorKind::Input, "numbers-many-levels")
                .with("column", head)
                .with("number", levels.len())
                .hint("numbers-many-levels-hint"));
        }
        for level in levels.iter().skip(1) {
            out.names.push(format!("{head}={level}"));
            for ((row, cells), cell) in out.rows.iter_mut().zip(&grid.rows).zip(&cells) {
                let is = f64::from(u8::from(label(cells) == *level));
                push(row, (*cell != Cell::Missing).then_some(is));
            }
        }
    }
    Ok(out)
}

fn push(row: &mut Option<Vec<f64>>, value: Option<f64>) {
    match (row.as_mut(), value) {
        (Some(values), Some(value)) => values.push(value),
        _ => *row = None,
    }
}
