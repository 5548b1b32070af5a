//! Which column is which: by what it is called, or by what the command was told.

use super::cell::{self, Cell};
use super::grid::{Grid, normal_form};
use crate::error::{AppError, ErrorKind};
use crate::facts::Problem;

/// Names of a column, the plainest first, in normal form.
pub type Names = &'static [&'static str];

/// Times.
pub const TIME: Names = &[
    "seconds",
    "second",
    "secs",
    "sec",
    "s",
    "time",
    "time_s",
    "time_seconds",
    "seconds_s",
    "duration",
    "duration_s",
    "set_time",
    "hold",
    "hold_s",
    "hold_time",
    "held",
    "survival_time",
    "t",
    "weeks",
    "days",
    "months",
    "minutes",
];
/// Whether a time ended with the event.
pub const EVENT: Names = &[
    "event",
    "events",
    "status",
    "form_loss",
    "form_lost",
    "lost_form",
    "form_failure",
    "failed",
    "failure",
    "fail",
    "event_observed",
    "observed",
    "e",
    "d",
    "delta",
    "death",
    "died",
    "relapse",
    "end",
    "end_reason",
    "ended",
    "ended_by",
];
/// The other way round: whether a time is censored.
pub const CENSORED: Names = &["censored", "is_censored", "capped", "reached_cap", "at_cap"];
/// Whether somebody looked.
pub const SEEN: Names = &["seen", "was_seen", "watched"];
/// Whose a row is.
pub const GROUP: Names = &[
    "group",
    "groups",
    "cluster",
    "line",
    "swimmer",
    "swimmer_id",
    "athlete",
    "athlete_id",
    "subject",
    "subject_id",
    "subj",
    "person",
    "person_id",
    "participant",
    "participant_id",
    "patient",
    "patient_id",
    "individual",
    "id",
    "name",
    "shoulder",
];
/// Which arm or squad a row belongs to, where groups are compared.
pub const ARM: Names = &[
    "group",
    "groups",
    "arm",
    "strata",
    "stratum",
    "treatment",
    "squad",
    "team",
    "rung",
    "exercise",
    "side",
    "series",
    "season",
    "week",
    "period",
];
/// Who or what was rated.
pub const SUBJECT: Names = &[
    "subject",
    "subject_id",
    "subj",
    "target",
    "targets",
    "swimmer",
    "swimmer_id",
    "athlete",
    "athlete_id",
    "person",
    "person_id",
    "participant",
    "participant_id",
    "patient",
    "patient_id",
    "shoulder",
    "id",
    "name",
    "case",
    "object",
];
/// Who rated, or which trial it was.
pub const RATER: Names = &[
    "rater",
    "raters",
    "judge",
    "trial",
    "trials",
    "session",
    "day",
    "occasion",
    "rep",
    "repetition",
    "attempt",
    "observer",
    "examiner",
    "tester",
    "test",
    "method",
    "device",
    "time",
    "measurement",
];
/// A measured value.
pub const VALUE: Names = &[
    "value",
    "values",
    "score",
    "rating",
    "y",
    "outcome",
    "response",
    "measure",
    "measurement",
    "result",
    "reading",
    "strength",
    "torque",
    "force",
    "reaction",
    "x",
    "observation",
];
/// A count.
pub const COUNT: Names = &[
    "events",
    "event",
    "count",
    "counts",
    "n_events",
    "injuries",
    "injury",
    "cases",
    "problems",
    "cases_new",
    "x",
    "observed",
    "number",
];
/// What was exposed.
pub const EXPOSURE: Names = &[
    "exposure",
    "exposures",
    "hours",
    "hour",
    "h",
    "hrs",
    "exposure_h",
    "exposure_hours",
    "exposure_km",
    "km",
    "kilometres",
    "kilometers",
    "person_time",
    "person_years",
    "person_hours",
    "athlete_hours",
    "athlete_exposures",
    "swim_km",
    "swim_hours",
    "sessions",
    "time",
    "t",
    "years",
];
/// How many people there were.
pub const PEOPLE: Names = &[
    "people",
    "swimmers",
    "persons",
    "athletes",
    "of",
    "out_of",
    "total",
    "n",
    "size",
    "denominator",
    "asked",
];
/// Which series a reading belongs to.
pub const SERIES: Names = &[
    "series",
    "line",
    "chart",
    "shoulder",
    "swimmer",
    "swimmer_id",
    "athlete",
    "subject",
    "person",
    "id",
    "name",
    "group",
    "measure",
    "side",
];
/// The order of readings.
pub const ORDER: Names = &[
    "order",
    "n",
    "number",
    "index",
    "i",
    "t",
    "time",
    "date",
    "day",
    "week",
    "session",
    "reading_number",
    "observation",
];

/// Finds a column: the one named, or the first of the names that stands in the head. `taken` columns are left out.
pub fn find(
    grid: &Grid,
    named: Option<&str>,
    names: Names,
    taken: &[usize],
) -> Result<Option<usize>, AppError> {
    if let Some(named) = named {
        let form = normal_form(named);
        let place = grid.heads.iter().position(|head| head == named || normal_form(head) == form);
        return place.map(Some).ok_or_else(|| missing(grid, named));
    }
    // A unit behind a name ("Time (s)", "hold time / s") is left out where the whole is not known.
    let known = |head: &str, name: &str| {
        let form = normal_form(head);
        form == name || normal_form(head.split(['(', '[', '/']).next().unwrap_or_default()) == name
    };
    let free = || grid.heads.iter().enumerate().filter(|(place, _)| !taken.contains(place));
    Ok(names.iter().find_map(|name| free().find(|(_, head)| known(head, name)).map(|(place, _)| place)))
}

/// Names of columns that only count rows, as programs add them.
const COUNTERS: Names =
    &["", "row", "rows", "rownames", "row_names", "row_number", "rowid", "index", "unnamed_0", "unnamed"];

/// Whether a column only counts rows or says whose a row is, and so explains nothing.
pub fn is_label(head: &str) -> bool {
    let form = normal_form(head);
    COUNTERS.contains(&form.as_str()) || GROUP.contains(&form.as_str())
}

/// Whether a column only counts rows.
pub fn is_counter(head: &str) -> bool {
    COUNTERS.contains(&normal_form(head).as_str())
}

/// Finds a column that must be there.
pub fn need(grid: &Grid, named: Option<&str>, names: Names, taken: &[usize]) -> Result<usize, AppError> {
    find(grid, named, names, taken)?.ok_or_else(|| missing(grid, names[0]))
}

fn missing(grid: &Grid, name: &str) -> AppError {
    AppError::new(ErrorKind::Input, "numbers-no-column")
        .with("column", name)
        .with("heads", grid.heads.join(", "))
        .hint("numbers-no-column-hint")
}

/// Cells that cannot be read, gathered while a table is read.
#[derive(Debug, Default)]
pub struct Troubles(Vec<Problem>);

/// Most cells that are listed; beyond that the file is the wrong one.
const MOST_LISTED: usize = 20;

impl Troubles {
    /// Notes a cell.
    pub fn add(&mut self, grid: &Grid, row: usize, column: usize, says: &'static str) {
        let place = super::say(
            "numbers-place",
            &[("line", grid.lines[row].to_string()), ("column", grid.heads[column].clone())],
        );
        self.0.push(Problem::at(place, says).with("cell", &grid.rows[row][column]));
    }

    /// Refuses the file if there were any.
    pub fn settle(mut self) -> Result<(), AppError> {
        if self.0.is_empty() {
            return Ok(());
        }
        let number = self.0.len();
        self.0.truncate(MOST_LISTED);
        let mut error = AppError::new(ErrorKind::Input, "numbers-cells")
            .with("number", number)
            .hint("numbers-cells-hint");
        error.problems = self.0;
        Err(error)
    }

    /// A number in a cell; nothing where it is missing, and a note where it is neither.
    pub fn number(&mut self, grid: &Grid, row: usize, column: usize) -> Option<f64> {
        self.kept(grid, row, column, cell::read(&grid.rows[row][column]))
    }

    /// A length of time.
    pub fn time(&mut self, grid: &Grid, row: usize, column: usize) -> Option<f64> {
        self.kept(grid, row, column, cell::time(&grid.rows[row][column]))
    }

    fn kept(&mut self, grid: &Grid, row: usize, column: usize, found: Cell) -> Option<f64> {
        match found {
            Cell::Number(value) => Some(value),
            Cell::Missing => None,
            Cell::Text(_) => {
                self.add(grid, row, column, "numbers-not-a-number");
                None
            }
        }
    }
}
