//! The club's own trial of a test: from a table to its error.

use quantity::Range;
use stats::reliability::Trial;
use stats::reliability::error::MeasurementError;
use trade::screening::error::OwnTrial;
use trade::screening::measure::Measure;

use crate::desk::Desk;
use crate::error::AppError;
use crate::facts::{Problem, TrialFact};

/// Reads a table: a heading line, then one line a person or arm, the trials in columns named `trial 1`, `trial 2`,
/// `test`, `retest`, `1`, `2` or the like. Columns with words instead of numbers (a number for the person, a side) are
/// left aside, whatever they are called.
pub fn read(text: &str) -> Result<Vec<Vec<f64>>, AppError> {
    let delimiter = delimiter(text);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let shape =
        |line: u64| AppError::problems(vec![Problem::at(format!("line {line}"), "trial-not-a-table")]);
    let heads: Vec<String> = reader.headers().map_err(|_| shape(1))?.iter().map(str::to_lowercase).collect();
    let columns: Vec<usize> =
        heads.iter().enumerate().filter(|(_, head)| is_trial(head)).map(|(place, _)| place).collect();
    if columns.len() < 2 {
        let found = heads.join(", ");
        return Err(AppError::problems(vec![Problem::at("line 1", "trial-no-columns").with("found", found)]));
    }
    let mut rows = Vec::new();
    let mut problems = Vec::new();
    for (index, record) in reader.records().enumerate() {
        let line = index + 2;
        let Ok(record) = record else {
            problems.push(Problem::at(format!("line {line}"), "trial-not-a-table"));
            continue;
        };
        let cells: Vec<&str> = columns.iter().map(|place| record.get(*place).unwrap_or("")).collect();
        if cells.iter().all(|cell| cell.is_empty()) {
            continue;
        }
        let mut row = Vec::new();
        for (cell, place) in cells.iter().zip(&columns) {
            match cell.replace(',', ".").parse::<f64>() {
                Ok(value) if value.is_finite() => row.push(value),
                // A person who was not tested every time cannot be compared with himself.
                _ => problems.push(
                    Problem::at(format!("line {line}, {}", heads[*place]), "trial-not-a-number")
                        .with("text", cell),
                ),
            }
        }
        rows.push(row);
    }
    if problems.is_empty() { Ok(rows) } else { Err(AppError::problems(problems)) }
}

fn delimiter(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or_default();
    [b';', b'\t', b','].into_iter().find(|mark| first.as_bytes().contains(mark)).unwrap_or(b',')
}

/// A heading that names a trial: `trial 1`, `test`, `re-test`, `day 2`, `rater b`, or a bare number.
fn is_trial(head: &str) -> bool {
    let plain: String = head.chars().filter(|c| c.is_alphanumeric()).collect();
    let word = plain.trim_end_matches(|c: char| c.is_ascii_digit());
    let numbered = word.len() < plain.len();
    match word {
        "" => numbered,
        "test" | "retest" | "first" | "second" | "third" => true,
        "trial" | "t" | "day" | "time" | "visit" | "measurement" | "rater" | "tester" | "judge" => numbered,
        _ => ["trial", "rater", "tester", "judge"]
            .iter()
            .any(|stem| word.strip_prefix(stem).is_some_and(|letter| letter.chars().count() == 1)),
    }
}

/// Standard error of measurement: the root of the mean square within people, so that a shift between testers or days
/// counts as error too. None when there is no spread to speak of, or no table.
pub fn sem(rows: &[Vec<f64>]) -> Option<f64> {
    let trial = Trial::new(rows.to_vec()).ok()?;
    let sem = MeasurementError::absolute(&trial).sem;
    (sem.is_finite() && 0.0 < sem).then_some(sem)
}

/// The newest own trial of one measure, as the re-test uses it.
pub fn newest(desk: &Desk, key: &str, on: jiff::civil::Date) -> Option<OwnTrial> {
    let trial = desk.club().trials.iter().rev().find(|trial| trial.measure == key && trial.date <= on)?;
    of(trial)
}

/// One trial as the re-test uses it.
pub fn of(trial: &TrialFact) -> Option<OwnTrial> {
    Some(OwnTrial {
        date: trial.date,
        n: trial.rows.len(),
        trials: trial.rows.first()?.len(),
        sem: sem(&trial.rows)?,
    })
}

/// Finds a measure as a person names it: its key, or its label.
pub fn measure(word: &str) -> Option<&'static Measure> {
    let plain =
        |text: &str| -> String { text.to_lowercase().chars().filter(|c| c.is_alphanumeric()).collect() };
    let wanted = plain(word);
    trade::screening::measure::MEASURES.iter().find(|measure| {
        plain(measure.key) == wanted
            || Range::of(measure.key).is_some_and(|range| plain(range.label) == wanted)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: Shrout and Fleiss 1979, six people and four judges: mean square within 6.2639.
    #[test]
    fn the_error_of_a_published_table() {
        let text = "id,judge 1,judge 2,judge 3,judge 4\na,9,2,5,8\nb,6,1,3,2\nc,8,4,6,8\nd,7,1,2,6\ne,10,5,6,9\nf,6,2,4,7\n";
        let rows = read(text).expect("it is a table");
        assert_eq!((rows.len(), rows[0].len()), (6, 4));
        let sem = sem(&rows).expect("there is spread");
        assert!((sem * sem - 6.2639).abs() < 5e-5, "{sem}");
    }

    #[test]
    fn tables_are_read_as_clubs_write_them() {
        for text in [
            "Test;Re-test\n92,5;90\n88;91,5\n",
            "swimmer\tside\t1\t2\nA\tleft\t92.5\t90\nB\tleft\t88\t91.5\n",
        ] {
            assert_eq!(read(text).expect("it is a table"), [[92.5, 90.0], [88.0, 91.5]], "{text}");
        }
        let refused = |text: &str| read(text).expect_err("it is refused").problems;
        assert_eq!(refused("name,force\nA,90\n")[0].says, "trial-no-columns");
        let gaps = refused("trial 1,trial 2\n90,\n,88\n91,x\n");
        assert_eq!(gaps.iter().map(|problem| problem.says).collect::<Vec<_>>(), ["trial-not-a-number"; 3]);
    }

    #[test]
    fn no_spread_and_no_table_give_no_error() {
        assert_eq!(sem(&[vec![5.0, 5.0], vec![7.0, 7.0]]), None);
        assert_eq!(sem(&[vec![5.0, 6.0]]), None);
        assert_eq!(sem(&[]), None);
    }

    #[test]
    fn a_measure_is_found_by_key_and_by_label() {
        for word in ["er_force", "ER force", "External rotation strength"] {
            assert_eq!(measure(word).map(|measure| measure.key), Some("er_force"), "{word}");
        }
        assert_eq!(measure("biceps"), None);
    }
}
