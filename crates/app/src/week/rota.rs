//! A rota from a table of minutes: first column the group, other columns the stations. Zero is not visited.

use std::collections::BTreeMap;

use schedule::rota::{MOST_VISITS, Method, Rota, RotaFault, SharedKit, Timetable, shortest};
use serde::Serialize;

use crate::facts::Problem;

/// Name and version of the output shape.
pub const SHAPE: &str = "cuffwright.rota/1";

/// Units of the solver in a minute: hundredths of a minute and seconds are both whole.
const UNITS: u32 = 6_000;
/// Longest stay, minutes.
const LONGEST_STAY: f64 = 1_440.0;

/// The whole answer. All times are minutes from the start.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RotaAnswer {
    /// [`SHAPE`].
    pub shape: &'static str,
    /// From the first start to the last end.
    pub minutes: Number,
    /// True when no shorter rota exists.
    pub proven: bool,
    /// No rota is shorter than this.
    pub at_least: Number,
    /// What might still be saved, as a share of the minutes; zero when proven.
    pub gap: f64,
    /// `formula` for equal stays, `list` when a quick rule met the lower bound, `solver` otherwise.
    pub method: &'static str,
    /// Groups in the order of the file.
    pub groups: Vec<String>,
    /// Stations in the order of the file.
    pub stations: Vec<String>,
    /// Every visit, by start.
    pub visits: Vec<VisitWord>,
    /// The same starts, by group and station.
    pub starts: BTreeMap<String, BTreeMap<String, Number>>,
}

/// One visit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct VisitWord {
    /// Group.
    pub group: String,
    /// Station.
    pub station: String,
    /// Start.
    pub start: Number,
    /// End.
    pub end: Number,
}

/// Minutes: whole where they are whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Number(pub f64);

impl Serialize for Number {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.0.fract() == 0.0 && self.0.abs() < 1e15 {
            // Whole and far below 2^53, so the conversion is exact.
            serializer.serialize_i64(self.0 as i64)
        } else {
            serializer.serialize_f64(self.0)
        }
    }
}

impl std::fmt::Display for Number {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let text = format!("{:.2}", self.0);
        out.write_str(text.trim_end_matches('0').trim_end_matches('.'))
    }
}

/// A table of minutes, read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Minutes {
    groups: Vec<String>,
    stations: Vec<String>,
    /// In units of the solver.
    stays: Vec<Vec<u32>>,
}

/// Reads a table of minutes, or lists every problem with its line.
pub fn read(text: &str) -> Result<Minutes, Vec<Problem>> {
    let (header, rows) = table(text)?;
    let mut problems = Vec::new();
    let columns = header.iter().rposition(|cell| !cell.is_empty()).map_or(0, |last| last + 1);
    let stations: Vec<String> = header.iter().take(columns).skip(1).cloned().collect();
    if stations.is_empty() {
        return Err(vec![Problem::at("1", "rota-no-stations")]);
    }
    for (at, station) in stations.iter().enumerate() {
        if station.is_empty() {
            problems.push(Problem::at("1", "rota-unnamed-station").with("column", at + 2));
        } else if stations[..at].contains(station) {
            problems.push(Problem::at("1", "rota-twice").with("name", station));
        }
    }
    let mut read = Minutes { groups: Vec::new(), stations, stays: Vec::new() };
    for (line, mut row) in rows {
        while columns < row.len() && row.last().is_some_and(String::is_empty) {
            row.pop();
        }
        if row.len() != columns {
            let problem = Problem::at(line.to_string(), "rota-columns");
            problems.push(problem.with("has", row.len()).with("wanted", columns));
            continue;
        }
        let group = row[0].clone();
        if group.is_empty() {
            problems.push(Problem::at(line.to_string(), "rota-unnamed-group"));
        } else if read.groups.contains(&group) {
            problems.push(Problem::at(line.to_string(), "rota-twice").with("name", &group));
        }
        let stays = row[1..].iter().enumerate().map(|(at, cell)| {
            let about = |says| {
                Problem::at(line.to_string(), says).with("group", &group).with("station", &read.stations[at])
            };
            if cell.is_empty() {
                problems.push(about("rota-blank"));
                return 0;
            }
            units(cell).unwrap_or_else(|| {
                problems.push(about("rota-not-minutes").with("value", cell));
                0
            })
        });
        let stays = stays.collect();
        read.stays.push(stays);
        read.groups.push(group);
    }
    if read.groups.is_empty() && problems.is_empty() {
        problems.push(Problem::at("", "rota-empty"));
    }
    if problems.is_empty() { Ok(read) } else { Err(problems) }
}

/// The cells of one row, with its line in the file.
type Row = (u64, Vec<String>);

/// Header and rows of a text with a delimiter, with the line of each row. Empty lines are left out.
fn table(text: &str) -> Result<(Vec<String>, Vec<Row>), Vec<Problem>> {
    let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let delimiter = [b'\t', b';', b',', b'|']
        .into_iter()
        .max_by_key(|mark| (first.bytes().filter(|byte| byte == mark).count(), *mark == b','))
        .unwrap_or(b',');
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut rows: Vec<Row> = Vec::new();
    for record in reader.records() {
        let record =
            record.map_err(|error| vec![Problem::at("", "rota-unreadable").with("detail", error)])?;
        let line = record.position().map_or(0, csv::Position::line);
        let cells: Vec<String> = record.iter().map(str::to_owned).collect();
        if cells.iter().any(|cell| !cell.is_empty()) {
            rows.push((line, cells));
        }
        if MOST_VISITS < rows.len() {
            return Err(vec![Problem::at("", "rota-too-large").with("most", MOST_VISITS)]);
        }
    }
    if rows.is_empty() {
        return Err(vec![Problem::at("", "rota-empty")]);
    }
    let (_, header) = rows.remove(0);
    Ok((header, rows))
}

/// Minutes as people write them, in units: 4, 4.5, 4,5, 4:30; a dash is zero.
fn units(cell: &str) -> Option<u32> {
    if matches!(cell, "-" | "–" | "—") {
        return Some(0);
    }
    let cell = cell.strip_suffix("min").map_or(cell, str::trim_end);
    let minutes = match cell.split_once(':') {
        Some((minutes, seconds)) => {
            let whole = |part: &str| {
                part.chars().all(|letter| letter.is_ascii_digit()).then(|| part.parse::<f64>().ok())?
            };
            let (minutes, seconds) = (whole(minutes)?, whole(seconds)?);
            if seconds < 60.0 { minutes + seconds / 60.0 } else { return None }
        }
        None => cell.replace(',', ".").parse::<f64>().ok()?,
    };
    if !minutes.is_finite() || !(0.0..=LONGEST_STAY).contains(&minutes) {
        return None;
    }
    let units = minutes * f64::from(UNITS);
    // Finer than a hundredth of a minute or a second cannot be kept, and is not rounded away in silence.
    ((units - units.round()).abs() < 1e-6).then(|| units.round() as u32)
}

/// Reads shared kit: first column the kit, second the pieces, then what a group needs at each station.
pub fn read_kit(text: &str, minutes: &Minutes) -> Result<Vec<SharedKit>, Vec<Problem>> {
    let (header, rows) = table(text)?;
    let mut problems = Vec::new();
    let columns: Vec<Option<usize>> = header
        .iter()
        .skip(2)
        .map(|name| {
            let at = minutes.stations.iter().position(|station| station.eq_ignore_ascii_case(name));
            if at.is_none() && !name.is_empty() {
                problems.push(Problem::at("1", "rota-kit-column").with("name", name));
            }
            at
        })
        .collect();
    let mut all = Vec::new();
    for (line, row) in rows {
        let mut whole = |cell: &str| {
            let pieces = if cell.is_empty() || cell == "-" {
                Some(0)
            } else {
                cell.parse::<u32>().ok().filter(|it| *it <= 10_000)
            };
            pieces.unwrap_or_else(|| {
                problems.push(Problem::at(line.to_string(), "rota-kit-pieces").with("value", cell));
                0
            })
        };
        let pieces = whole(row.get(1).map_or("", String::as_str));
        let mut needs = vec![0; minutes.stations.len()];
        for (cell, column) in row.iter().skip(2).zip(&columns) {
            if let Some(at) = column {
                needs[*at] = whole(cell);
            }
        }
        all.push(SharedKit { name: row.first().cloned().unwrap_or_default(), pieces, needs });
    }
    if problems.is_empty() { Ok(all) } else { Err(problems) }
}

/// The shortest rota, or the best found when `stop` says that time is up. `change` is minutes between two stays.
pub fn run(
    minutes: &Minutes,
    change: f64,
    kit: Vec<SharedKit>,
    stop: &mut dyn FnMut() -> bool,
) -> Result<RotaAnswer, Vec<Problem>> {
    let change = (change.clamp(0.0, LONGEST_STAY) * f64::from(UNITS)).round() as u32;
    let step = minutes.stays.iter().flatten().copied().chain([change]).fold(0, divisor).max(1);
    let rota = Rota {
        stays: minutes.stays.iter().map(|row| row.iter().map(|stay| stay / step).collect()).collect(),
        change: change / step,
        kit,
    };
    let table = shortest(&rota, stop).map_err(|fault| vec![problem(&rota, minutes, &fault)])?;
    Ok(answer(minutes, &table, f64::from(step) / f64::from(UNITS)))
}

/// Greatest common divisor: the coarsest unit in which every stay is whole makes the solver's numbers small.
fn divisor(one: u32, other: u32) -> u32 {
    if other == 0 { one } else { divisor(other, one % other) }
}

fn problem(rota: &Rota, minutes: &Minutes, fault: &RotaFault) -> Problem {
    match fault {
        RotaFault::KitShort { kit, station } => Problem::at("", "rota-kit-short")
            .with("station", &minutes.stations[*station])
            .with("needs", rota.kit[*kit].needs[*station])
            .with("kit", &rota.kit[*kit].name)
            .with("pieces", rota.kit[*kit].pieces),
        RotaFault::Ragged { .. } | RotaFault::TooLarge => {
            Problem::at("", "rota-too-large").with("most", MOST_VISITS)
        }
    }
}

fn answer(minutes: &Minutes, table: &Timetable, unit: f64) -> RotaAnswer {
    // Units are hundredths of a minute or seconds; rounding here takes away only what floating point added.
    let number = |units: u32| Number((f64::from(units) * unit * 1e6).round() / 1e6);
    let mut starts: BTreeMap<String, BTreeMap<String, Number>> =
        minutes.groups.iter().map(|group| (group.clone(), BTreeMap::new())).collect();
    let visits: Vec<VisitWord> = table
        .visits
        .iter()
        .map(|visit| VisitWord {
            group: minutes.groups[visit.group].clone(),
            station: minutes.stations[visit.station].clone(),
            start: number(visit.start),
            end: number(visit.end),
        })
        .collect();
    for visit in &visits {
        starts.entry(visit.group.clone()).or_default().insert(visit.station.clone(), visit.start);
    }
    RotaAnswer {
        shape: SHAPE,
        minutes: number(table.length),
        proven: table.is_proven(),
        at_least: number(table.at_least),
        gap: table.gap(),
        method: match table.method {
            Method::Formula => "formula",
            Method::List => "list",
            Method::Solver => "solver",
        },
        groups: minutes.groups.clone(),
        stations: minutes.stations.clone(),
        visits,
        starts,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solved(text: &str) -> RotaAnswer {
        run(&read(text).expect("a table"), 0.0, Vec::new(), &mut || false).expect("a rota")
    }

    #[test]
    fn a_table_is_read_in_the_shapes_people_have() {
        for text in [
            "group,wall,mats\nA,4,6\nB,4,0\n",
            "Group;Wall;Mats;\n\nA;4,0;6;\nB;4:00;-;\n",
            "group\twall\tmats\r\nA\t4\t6 min\r\nB\t4.0\t0\r\n",
            "\"group\", \"wall\", mats\n\"A\", 4, 6\nB, 4, 0",
        ] {
            let answer = solved(text);
            assert_eq!(answer.minutes, Number(10.0), "{text}");
            assert!(answer.proven);
            assert_eq!(answer.visits.len(), 3, "{text}");
        }
        let half = solved("g,a\nA,4.25\nB,0:45\n");
        assert_eq!(half.minutes, Number(5.0));
        assert_eq!(serde_json::to_string(&half.starts).expect("json"), r#"{"A":{"a":0},"B":{"a":4.25}}"#);
    }

    #[test]
    fn every_problem_is_listed_with_its_line() {
        let says = |text: &str| -> Vec<(String, &str)> {
            read(text)
                .expect_err("problems")
                .into_iter()
                .map(|problem| (problem.path, problem.says))
                .collect()
        };
        let at = |line: &str, says| (line.to_owned(), says);
        assert_eq!(
            says("g,a,b\nA,4,\nB,x,3\nA,1,1\nC,1\n"),
            vec![
                at("2", "rota-blank"),
                at("3", "rota-not-minutes"),
                at("4", "rota-twice"),
                at("5", "rota-columns")
            ]
        );
        assert_eq!(
            says("g,a,a\nA,-4,1441\n"),
            vec![at("1", "rota-twice"), at("2", "rota-not-minutes"), at("2", "rota-not-minutes"),]
        );
        assert_eq!(says("g,a\n,4\n"), vec![at("2", "rota-unnamed-group")]);
        assert_eq!(says(""), vec![at("", "rota-empty")]);
        assert_eq!(says("g,a\n"), vec![at("", "rota-empty")]);
        assert_eq!(says("g\nA\n"), vec![at("1", "rota-no-stations")]);
    }

    #[test]
    fn shared_kit_is_kept_to_or_named() {
        let minutes = read("g,wall,mats\nA,5,5\nB,5,5\n").expect("a table");
        let kit = read_kit("kit,pieces,wall,mats\nballs,6,4,4\n", &minutes).expect("kit");
        let answer = run(&minutes, 0.0, kit, &mut || false).expect("a rota");
        assert_eq!((answer.minutes, answer.proven), (Number(20.0), true));
        let kit = read_kit("kit,pieces,wall\nballs,3,4\n", &minutes).expect("kit");
        let problems = run(&minutes, 0.0, kit, &mut || false).expect_err("too few");
        assert_eq!(problems[0].says, "rota-kit-short");
        assert_eq!(read_kit("kit,pieces,wal\nballs,x,4\n", &minutes).expect_err("problems").len(), 2);
    }
}
