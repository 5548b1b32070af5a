//! The columns of a file, each settled once: its unit, its decimal mark, its order of day and month.

use quantity::reading::{self, DecimalMark, Dimension, ReadingError, Unit};

use super::columns::{Carries, Col, Heading, Reads};
use super::dates::{self, DateError, DateOrder};
use super::detect::{self, Headers};
use super::problem::{Problem, Said};
use super::table::{Cell, Row, Table};
use super::{Kind, Options};
use crate::facts::Units;

/// One known column.
pub(super) struct Column {
    pub(super) place: usize,
    /// Header as the file writes it.
    pub(super) header: String,
    /// What it is.
    pub(super) heading: Heading,
    pub(super) order: Option<DateOrder>,
    pub(super) mark: Option<DecimalMark>,
    pub(super) unit: Option<Unit>,
}

/// The rows under the headers.
pub(super) struct Grid<'a> {
    /// Known columns.
    pub(super) columns: Vec<Column>,
    /// Rows under the header.
    pub(super) rows: &'a [Row],
    pub(super) width: usize,
}

impl<'a> Grid<'a> {
    /// Settles each column: its unit, its decimal mark, its order of day and month. Pushes what cannot be settled.
    pub(super) fn new(
        table: &'a Table,
        kind: Kind,
        headers: Headers,
        options: &Options,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let rows = &table.rows[headers.row + 1..];
        let width =
            table.rows[headers.row].cells.iter().rposition(|cell| !cell.is_blank()).map_or(0, |i| i + 1);
        for header in &headers.unknown {
            let mut note = Problem::note("import-column-not-used").in_column(header);
            note.suggestion = detect::meant(kind, header).map(Box::new);
            problems.push(note);
        }
        let mut columns: Vec<Column> = Vec::new();
        for (place, header, heading) in headers.found {
            if let Some(before) = columns.iter().find(|column| same_column(&column.heading, &heading)) {
                problems.push(
                    Problem::new("import-column-twice").in_column(&header).with("other", &before.header),
                );
                continue;
            }
            if let Some(unit) = &heading.unknown_unit {
                problems.push(
                    Problem::new("import-column-unknown-unit")
                        .in_column(&header)
                        .with("unit", unit)
                        .suggest(Said::new("import-try-unit")),
                );
            }
            if heading.spec.carries == Carries::Side && heading.side.is_none() {
                problems.push(
                    Problem::new("import-column-needs-side")
                        .in_column(&header)
                        .suggest(Said::new("import-try-side-in-header").with("header", &header)),
                );
            }
            columns.push(Column { place, header, heading, order: None, mark: None, unit: None });
        }
        for column in &mut columns {
            let texts: Vec<(u32, &str)> = rows
                .iter()
                .filter_map(|row| match row.cells.get(column.place) {
                    Some(Cell::Text(text)) => Some((row.number, text.as_str())),
                    _ => None,
                })
                .collect();
            match column.heading.spec.reads {
                Reads::Day => column.order = settle_order(column, &texts, options, problems),
                Reads::Quantity(dimension) => {
                    column.mark = settle_mark(&texts, dimension);
                    column.unit = settle_unit(column, rows, dimension, options, problems);
                }
                Reads::Text | Reads::YesNo | Reads::Choice => {}
            }
        }
        Grid { columns, rows, width }
    }

    /// The column, if the file has it.
    pub(super) fn column(&self, col: Col) -> Option<&Column> {
        self.columns.iter().find(|column| column.heading.spec.col == col)
    }

    /// The file has this column.
    pub(super) fn has(&self, col: Col) -> bool {
        self.column(col).is_some()
    }
}

fn same_column(a: &Heading, b: &Heading) -> bool {
    (a.spec.col, a.side, a.number) == (b.spec.col, b.side, b.number)
}

/// The order of day and month of one column: said in the header, said by the person, or shown by a value that can
/// only be read one way while none can only be read the other.
fn settle_order(
    column: &Column,
    texts: &[(u32, &str)],
    options: &Options,
    problems: &mut Vec<Problem>,
) -> Option<DateOrder> {
    let said = column.heading.order.or(options.dates);
    if said.is_some() {
        return said;
    }
    let shows = |order| texts.iter().find(|(_, text)| dates::order_shown(text) == Some(order));
    let doubtful = texts.iter().find(|(_, text)| dates::read_day(text, None) == Err(DateError::Ambiguous));
    match (shows(DateOrder::DayFirst), shows(DateOrder::MonthFirst)) {
        (Some((day_row, day)), Some((month_row, month))) => {
            problems.push(
                Problem::new("import-dates-contradict")
                    .in_column(&column.header)
                    .with("day_first", day)
                    .with("day_first_row", day_row)
                    .with("month_first", month)
                    .with("month_first_row", month_row)
                    .suggest(Said::new("import-try-iso-dates")),
            );
            None
        }
        (Some((row, text)), None) => {
            problems.push(order_note(column, *row, text, DateOrder::DayFirst));
            Some(DateOrder::DayFirst)
        }
        (None, Some((row, text))) => {
            problems.push(order_note(column, *row, text, DateOrder::MonthFirst));
            Some(DateOrder::MonthFirst)
        }
        (None, None) => {
            if let Some((row, text)) = doubtful {
                let mut problem = Problem::new("import-dates-ambiguous")
                    .in_column(&column.header)
                    .showing(text)
                    .with("date", text)
                    .suggest(Said::new("import-try-dates"));
                problem.row = Some(*row);
                problems.push(problem);
            }
            None
        }
    }
}

fn order_note(column: &Column, row: u32, text: &str, order: DateOrder) -> Problem {
    Problem::note("import-note-date-order")
        .in_column(&column.header)
        .with("order", order.word())
        .with("row", row)
        .with("date", text)
}

/// The decimal mark that the column's own values show beyond doubt, if they agree.
fn settle_mark(texts: &[(u32, &str)], dimension: Dimension) -> Option<DecimalMark> {
    let mut shown = texts.iter().filter_map(|(_, text)| {
        reading::quantity(text, dimension, Some(any_unit(dimension)), None).ok()?.shows
    });
    let first = shown.next()?;
    shown.all(|mark| mark == first).then_some(first)
}

fn any_unit(dimension: Dimension) -> Unit {
    assumed(dimension, Units::Metric)
}

/// The unit that the club's choice of units puts on a bare number.
fn assumed(dimension: Dimension, units: Units) -> Unit {
    match (dimension, units) {
        (Dimension::Mass, Units::Metric) => Unit::Kilogram,
        (Dimension::Mass, Units::Imperial) => Unit::Pound,
        (Dimension::Force, Units::Metric) => Unit::Newton,
        (Dimension::Force, Units::Imperial) => Unit::PoundForce,
        (Dimension::Length, Units::Metric) => Unit::Centimetre,
        (Dimension::Length, Units::Imperial) => Unit::Inch,
        (Dimension::Angle, _) => Unit::Degree,
        (Dimension::Time, _) => Unit::Second,
        (Dimension::Count, _) => Unit::One,
    }
}

fn settle_unit(
    column: &Column,
    rows: &[Row],
    dimension: Dimension,
    options: &Options,
    problems: &mut Vec<Problem>,
) -> Option<Unit> {
    if column.heading.unit.is_some() {
        return column.heading.unit;
    }
    let unit = assumed(dimension, options.units);
    let physical = matches!(dimension, Dimension::Mass | Dimension::Force | Dimension::Length);
    let bare = rows.iter().find(|row| match row.cells.get(column.place) {
        Some(Cell::Number(_)) => true,
        Some(Cell::Text(text)) => {
            reading::quantity(text, dimension, None, column.mark) == Err(ReadingError::NoUnit)
        }
        _ => false,
    });
    if physical && let Some(row) = bare {
        problems.push(
            Problem::note("import-note-unit-assumed")
                .in_column(&column.header)
                .with("unit", unit.symbol())
                .with("row", row.number)
                .suggest(Said::new("import-try-unit")),
        );
    }
    Some(unit)
}
