//! One row, read cell by cell; whatever cannot be read becomes a problem of that cell.

use jiff::civil::Date;
use quantity::reading::{self, DecimalMark, Dimension, ReadingError, Unit};
use quantity::{Judgement, Range};
use trade::side::Side;

use super::columns::{Col, Reads};
use super::dates::{self, DateError};
use super::grid::{Column, Grid};
use super::problem::{Problem, Said};
use super::table::{Cell, Row};
use super::words::{short, squashed};
use super::{Options, choices};

/// A measured value as read from a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Measured {
    /// In the unit of its range, or else in the canonical unit.
    pub(super) value: f64,
    /// As a person wrote it, with its unit.
    pub(super) entered: String,
    /// Unit in which it was written.
    pub(super) unit: Unit,
    /// Half of the last place written, in the same unit as the value.
    pub(super) half_last_place: f64,
}

/// One row being read. Every getter answers none for a blank cell, and none with a problem for an unreadable one.
pub(super) struct Line<'a> {
    grid: &'a Grid<'a>,
    row: &'a Row,
    options: &'a Options,
    /// Problems so far.
    pub(super) problems: Vec<Problem>,
    hidden: bool,
}

impl<'a> Line<'a> {
    /// Reads one row.
    pub(super) fn new(grid: &'a Grid<'a>, row: &'a Row, options: &'a Options) -> Self {
        let mut line = Line { grid, row, options, problems: Vec::new(), hidden: false };
        let spilled = row.cells.iter().skip(grid.width).find(|cell| !cell.is_blank());
        if let Some(cell) = spilled {
            line.problems.push(
                Problem::new("import-row-too-long")
                    .on_row(row.number)
                    .showing(cell.shown())
                    .suggest(Said::new("import-try-quoting-decimals")),
            );
        }
        line
    }

    /// Something in the row blocks it.
    pub(super) fn is_blocked(&self) -> bool {
        self.hidden || self.problems.iter().any(|problem| problem.weight == super::Weight::Blocks)
    }

    /// All columns.
    pub(super) fn columns(&self) -> &'a [Column] {
        &self.grid.columns
    }

    /// The file has this column.
    pub(super) fn has(&self, col: Col) -> bool {
        self.grid.has(col)
    }

    /// A problem of the row as a whole.
    pub(super) fn push(&mut self, problem: Problem) {
        self.problems.push(problem.on_row(self.row.number));
    }

    /// A problem of one cell.
    pub(super) fn push_at(&mut self, column: &Column, problem: Problem) {
        let value = self.row.cells.get(column.place).map(Cell::shown);
        let mut problem = problem.on_row(self.row.number).in_column(&column.header);
        problem.value = value;
        self.problems.push(problem);
    }

    /// A problem of the cell in a column, or of the row where the file lacks the column.
    pub(super) fn push_in(&mut self, col: Col, problem: Problem) {
        match self.grid.column(col) {
            Some(column) => self.push_at(column, problem),
            None => self.push(problem),
        }
    }

    /// The cell, unless it is blank; a broken formula is a problem.
    pub(super) fn cell(&mut self, column: &Column) -> Option<&'a Cell> {
        match self.row.cells.get(column.place) {
            None | Some(Cell::Blank) => None,
            Some(Cell::Broken(error)) => {
                self.push_at(column, Problem::new("import-cell-broken").with("error", error));
                None
            }
            Some(cell) => Some(cell),
        }
    }

    /// The cell, unless it is blank or holds only a dash.
    fn answered(&mut self, column: &Column) -> Option<&'a Cell> {
        self.cell(column).filter(|cell| !matches!(cell, Cell::Text(text) if choices::is_dash(text)))
    }

    fn find(&self, col: Col) -> Option<&'a Column> {
        self.grid.column(col)
    }

    /// Text as written.
    pub(super) fn text(&mut self, col: Col) -> Option<String> {
        let column = self.find(col)?;
        self.cell(column).map(Cell::shown)
    }

    /// A day.
    pub(super) fn day(&mut self, col: Col) -> Option<Date> {
        let column = self.find(col)?;
        match self.answered(column)? {
            Cell::Day(day) => Some(*day),
            cell => {
                let error = match cell {
                    Cell::Text(text) => match dates::read_day(text, column.order) {
                        Ok(day) => return Some(day),
                        Err(error) => error,
                    },
                    Cell::Number(_) => DateError::Serial,
                    _ => DateError::NotADate,
                };
                let problem = match error {
                    DateError::Ambiguous => {
                        // Said once for the whole column.
                        self.hidden = true;
                        return None;
                    }
                    DateError::NotADate => {
                        Problem::new("import-date-unreadable").suggest(Said::new("import-try-iso-dates"))
                    }
                    DateError::ShortYear => Problem::new("import-date-short-year")
                        .suggest(Said::new("import-try-four-digit-year")),
                    DateError::Impossible => match column.order {
                        Some(order) => Problem::new("import-date-impossible").with("order", order.word()),
                        None => Problem::new("import-date-impossible").with("order", "none"),
                    },
                    DateError::Serial => {
                        Problem::new("import-date-serial").suggest(Said::new("import-try-date-cells"))
                    }
                };
                self.push_at(column, problem.with("date", cell.shown()));
                None
            }
        }
    }

    /// A day that has come: not after today.
    pub(super) fn past_day(&mut self, col: Col) -> Option<Date> {
        let day = self.day(col)?;
        if self.options.today < day {
            let problem =
                Problem::new("import-date-to-come").with("date", day).with("today", self.options.today);
            self.push_in(col, problem);
            return None;
        }
        Some(day)
    }

    /// Yes or no.
    pub(super) fn yes_no(&mut self, col: Col) -> Option<bool> {
        let column = self.find(col)?;
        self.yes_no_at(column)
    }

    /// Yes or no in one column.
    pub(super) fn yes_no_at(&mut self, column: &Column) -> Option<bool> {
        let cell = self.answered(column)?;
        let answer = match cell {
            Cell::Truth(truth) => return Some(*truth),
            other => choices::yes_no(&squashed(&other.shown())),
        };
        match answer {
            Some(choices::Answer::Yes) => Some(true),
            Some(choices::Answer::No) => Some(false),
            Some(choices::Answer::NotKnown) => None,
            None => {
                let problem = Problem::new("import-not-yes-or-no").suggest(Said::new("import-try-yes-no"));
                self.push_at(column, problem);
                None
            }
        }
    }

    /// One of a few words.
    pub(super) fn choice<T: Copy>(
        &mut self,
        col: Col,
        words: &[(&'static str, T)],
        known_as: &[&'static str],
    ) -> Option<T> {
        let column = self.find(col)?;
        self.choice_at(column, words, known_as)
    }

    /// One of a few words in one column.
    pub(super) fn choice_at<T: Copy>(
        &mut self,
        column: &Column,
        words: &[(&'static str, T)],
        known_as: &[&'static str],
    ) -> Option<T> {
        let cell = self.answered(column)?;
        let wanted = squashed(&cell.shown());
        let found = words.iter().find(|(word, _)| *word == wanted);
        if found.is_none() {
            let problem = Problem::new("import-word-unknown")
                .suggest(Said::new("import-try-one-of").with("words", known_as.join(", ")));
            self.push_at(column, problem);
        }
        found.map(|(_, value)| *value)
    }

    /// A whole number within limits.
    pub(super) fn whole(&mut self, col: Col, low: u16, high: u16) -> Option<u16> {
        let column = self.find(col)?;
        let cell = self.answered(column)?;
        let value = match cell {
            Cell::Number(value) => Some(*value),
            other => reading::number(&other.shown(), column.mark).ok().map(|number| number.value),
        };
        let whole =
            value.filter(|value| value.fract() == 0.0 && (f64::from(low)..=f64::from(high)).contains(value));
        match whole {
            Some(value) => Some(value as u16),
            None => {
                let problem = Problem::new("import-not-a-whole-number").with("low", low).with("high", high);
                self.push_at(column, problem);
                None
            }
        }
    }

    /// A measured value, judged against its range.
    pub(super) fn measured(&mut self, col: Col, range_key: &str) -> Option<Measured> {
        let column = self.find(col)?;
        self.measured_at(column, range_key)
    }

    /// A measured value in one column, judged against its range.
    pub(super) fn measured_at(&mut self, column: &Column, range_key: &str) -> Option<Measured> {
        let range = Range::of(range_key).expect("the columns name ranges that stand in the table");
        let cell = self.answered(column)?;
        let canonical = self.quantity_of(column, cell)?;
        let scale = if range.unit == "cm" { 100.0 } else { 1.0 };
        let measured = Measured {
            value: canonical.value * scale,
            half_last_place: canonical.half_last_place * scale,
            ..canonical
        };
        self.judge(column, range, &measured, scale).then_some(measured)
    }

    /// A quantity in its canonical unit, not judged.
    pub(super) fn quantity_at(&mut self, column: &Column) -> Option<Measured> {
        let cell = self.answered(column)?;
        self.quantity_of(column, cell)
    }

    fn quantity_of(&mut self, column: &Column, cell: &Cell) -> Option<Measured> {
        let Reads::Quantity(dimension) = column.heading.spec.reads else { return None };
        let read = match cell {
            Cell::Text(text) => reading::quantity(text, dimension, column.unit, column.mark),
            Cell::Number(value) => {
                // Shortest form that reads back the same; its last place is what the person saw.
                reading::quantity(&value.to_string(), dimension, column.unit, Some(DecimalMark::Point))
            }
            Cell::Duration(seconds) if dimension == Dimension::Time => {
                let text = seconds.to_string();
                reading::quantity(&text, dimension, Some(Unit::Second), Some(DecimalMark::Point))
            }
            _ => Err(ReadingError::NotANumber),
        };
        let problem = match read {
            Ok(read) => {
                let shown = cell.shown();
                let has_unit = shown.chars().any(|c| c.is_alphabetic() || "\"'′″°:".contains(c));
                let entered = if has_unit || read.unit.symbol().is_empty() {
                    shown
                } else {
                    format!("{shown} {}", read.unit.symbol())
                };
                return Some(Measured {
                    value: read.value,
                    entered,
                    unit: read.unit,
                    half_last_place: read.half_last_place,
                });
            }
            Err(ReadingError::Empty) => return None,
            Err(ReadingError::NotANumber | ReadingError::NotFinite) => Problem::new("import-not-a-number"),
            Err(ReadingError::Ambiguous { as_decimal, as_thousands }) => {
                Problem::new("import-number-ambiguous")
                    .with("as_decimal", as_decimal)
                    .with("as_thousands", as_thousands)
                    .suggest(
                        Said::new("import-try-plain-number")
                            .with("one", as_thousands)
                            .with("other", format!("{as_decimal}0")),
                    )
            }
            Err(ReadingError::UnknownUnit(unit)) => {
                Problem::new("import-unit-unknown").with("unit", unit).suggest(Said::new("import-try-unit"))
            }
            Err(ReadingError::WrongKind(unit)) => Problem::new("import-unit-wrong-kind")
                .with("unit", unit.symbol())
                .suggest(Said::new("import-try-unit")),
            Err(ReadingError::NoUnit) => {
                Problem::new("import-unit-missing").suggest(Said::new("import-try-unit"))
            }
        };
        self.push_at(column, problem);
        None
    }

    /// Refuses what is impossible, asks about what is unusual. The limits are shown in the unit that was written.
    fn judge(&mut self, column: &Column, range: &Range, measured: &Measured, scale: f64) -> bool {
        let limits = |(low, high): (f64, f64)| {
            let shown = |value: f64| short(measured.unit.from_canonical(value / scale));
            (shown(low), shown(high))
        };
        let (problem, (low, high)) = match range.judge(measured.value) {
            Judgement::Plausible => return true,
            Judgement::Ask => (Problem::ask("import-value-unusual"), limits(range.plausible)),
            Judgement::Refuse => (Problem::new("import-value-impossible"), limits(range.hard)),
        };
        let weight = problem.weight;
        let mut problem = problem
            .with("label", range.label)
            .with("low", low)
            .with("high", high)
            .with("unit", measured.unit.symbol());
        let spreadsheet_clock = matches!(self.row.cells.get(column.place), Some(Cell::Duration(seconds)) if range.hard.1 < *seconds);
        if spreadsheet_clock {
            problem = problem.suggest(Said::new("import-try-seconds"));
        } else if weight == super::Weight::Ask {
            problem = problem.suggest(Said::new("import-try-accept-unusual"));
        }
        self.push_at(column, problem);
        weight != super::Weight::Blocks
    }

    /// The column that stands beside another: of the same number, and of the same side where it names one.
    pub(super) fn beside(&self, col: Col, side: Option<Side>, number: Option<u8>) -> Option<&'a Column> {
        self.column_with(col, side, number).or_else(|| self.column_with(col, None, number))
    }

    /// The column of a value that a header may give a side or a number.
    pub(super) fn column_with(&self, col: Col, side: Option<Side>, number: Option<u8>) -> Option<&'a Column> {
        self.columns().iter().find(|column| {
            (column.heading.spec.col, column.heading.side, column.heading.number) == (col, side, number)
        })
    }
}
