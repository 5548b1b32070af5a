//! A table whose heads say quantity and unit: `length_m`, `Length (cm)`, `force [kgf]`, `pull lbs`.

use csv::{ReaderBuilder, StringRecord};
use quantity::reading::{self, DecimalMark, Dimension, Unit};

use crate::facts::Problem;

/// What a column may hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// A quantity with a unit.
    Of(Dimension),
    /// A part of a whole: bare, or in per cent.
    Share,
}

/// A column that is looked for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    /// What it is called in messages, with its usual unit.
    pub(super) key: &'static str,
    /// Words that name it; the rest of a head is its unit.
    pub(super) words: &'static [&'static str],
    /// What it holds.
    pub(super) kind: Kind,
    /// The unit meant by a head without one; nothing where that would be a guess.
    pub(super) bare: Option<Unit>,
}

/// One row in canonical units, each value in the order of what was wanted.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Row {
    /// Line of the file, counted from one.
    pub(super) line: u64,
    /// The values; a column that the file does not have holds nothing.
    pub(super) values: Vec<Option<f64>>,
}

/// The unit of a column.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Scale {
    Unit(Unit),
    Bare,
    Percent,
}

struct Column {
    at: usize,
    wanted: usize,
    head: String,
    scale: Scale,
}

/// More rows than anybody measures.
const MOST_ROWS: usize = 100_000;

/// Reads a table. `needed` are places in `wanted` of columns that must be there.
pub(super) fn read(text: &str, wanted: &[Wanted], needed: &[usize]) -> Result<Vec<Row>, Vec<Problem>> {
    let delimiter = delimiter(text);
    let mut reader = ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .comment(Some(b'#'))
        .delimiter(delimiter)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut problems = Vec::new();
    let mut columns: Option<Vec<Column>> = None;
    let mut rows = Vec::new();
    let mut record = StringRecord::new();
    loop {
        match reader.read_record(&mut record) {
            Ok(false) => break,
            Ok(true) => {}
            Err(error) => {
                return Err(vec![Problem::at("", "load-unreadable").with("detail", error.to_string())]);
            }
        }
        if record.iter().all(str::is_empty) {
            continue;
        }
        let line = record.position().map_or(0, csv::Position::line);
        let Some(columns) = &columns else {
            columns = Some(heads(&record, wanted, needed)?);
            continue;
        };
        if rows.len() == MOST_ROWS {
            return Err(vec![Problem::at("", "load-too-long").with("most", MOST_ROWS.to_string())]);
        }
        let mut values = vec![None; wanted.len()];
        for column in columns {
            let cell = record.get(column.at).unwrap_or("");
            match value(cell, column, wanted[column.wanted].kind, delimiter) {
                Ok(value) => values[column.wanted] = Some(value),
                Err(says) => problems.push(
                    Problem::at(format!("line {line}, {}", column.head), says).with("cell", cell.to_owned()),
                ),
            }
        }
        rows.push(Row { line, values });
    }
    if columns.is_none() {
        problems.push(Problem::at("", "load-empty"));
    }
    if problems.is_empty() { Ok(rows) } else { Err(problems) }
}

/// The delimiter that splits the first line with words in most parts.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().find(|line| !line.trim().is_empty() && !line.starts_with('#')).unwrap_or("");
    let parts = |delimiter: &u8| first.bytes().filter(|byte| byte == delimiter).count();
    [b';', b'\t', b','].into_iter().rev().max_by_key(parts).unwrap_or(b',')
}

fn heads(record: &StringRecord, wanted: &[Wanted], needed: &[usize]) -> Result<Vec<Column>, Vec<Problem>> {
    if record.iter().all(|cell| cell.parse::<f64>().is_ok()) {
        let names: Vec<&str> = needed.iter().map(|place| wanted[*place].key).collect();
        return Err(vec![Problem::at("", "load-no-heads").with("wanted", names.join(", "))]);
    }
    let mut columns: Vec<Column> = Vec::new();
    let mut problems = Vec::new();
    for (at, head) in record.iter().enumerate() {
        let Some((index, unit)) = wanted
            .iter()
            .enumerate()
            .find_map(|(index, wanted)| named(head, wanted.words).map(|unit| (index, unit)))
        else {
            continue;
        };
        let wanted = &wanted[index];
        match scale(&unit, wanted) {
            Ok(scale) => {
                if let Some(other) = columns.iter().find(|column| column.wanted == index) {
                    problems.push(
                        Problem::at(head, "load-two-columns")
                            .with("one", other.head.clone())
                            .with("other", head.to_owned()),
                    );
                }
                columns.push(Column { at, wanted: index, head: head.to_owned(), scale });
            }
            Err(says) => problems.push(
                Problem::at(head, says).with("unit", unit.join(" ")).with("wanted", wanted.key.to_owned()),
            ),
        }
    }
    for place in needed {
        let key = wanted[*place].key;
        let is_there = columns.iter().any(|column| column.wanted == *place);
        // A column whose unit was refused is not called missing as well.
        let refused =
            problems.iter().any(|problem: &Problem| problem.args.iter().any(|(_, value)| value == key));
        if !is_there && !refused {
            let found: Vec<&str> = record.iter().filter(|head| !head.is_empty()).collect();
            problems.push(
                Problem::at("", "load-no-column")
                    .with("wanted", key.to_owned())
                    .with("found", found.join(", ")),
            );
        }
    }
    if problems.is_empty() { Ok(columns) } else { Err(problems) }
}

/// Letters and digits of a head in small letters, split where anything else stands.
fn pieces(head: &str) -> Vec<String> {
    head.to_lowercase()
        .split(|letter: char| !letter.is_alphanumeric() && letter != '%' && letter != '"')
        .filter(|piece| !piece.is_empty())
        .map(str::to_owned)
        .collect()
}

/// What is left of a head when the words that name it are taken away; nothing when none of them stands in it.
fn named(head: &str, words: &[&str]) -> Option<Vec<String>> {
    let pieces = pieces(head);
    if pieces.iter().any(|piece| words.contains(&piece.as_str())) {
        let filler = ["of", "in", "the", "band", "total", "at", "stretched", "time", "held"];
        let mut rest: Vec<String> =
            pieces.iter().filter(|piece| !words.contains(&piece.as_str())).cloned().collect();
        // "in" is an inch where nothing else could be the unit: length_in.
        let only = |rest: &[String]| rest.iter().filter(|piece| !filler.contains(&piece.as_str())).count();
        let inch = only(&rest) == 0 && rest.iter().any(|piece| piece == "in");
        rest.retain(|piece| (inch && piece == "in") || !filler.contains(&piece.as_str()));
        return Some(rest);
    }
    // Written together: lengthcm, forcen.
    let whole = pieces.concat();
    words.iter().find_map(|word| whole.strip_prefix(word)).map(|rest| vec![rest.to_owned()])
}

fn scale(unit: &[String], wanted: &Wanted) -> Result<Scale, &'static str> {
    let word = unit.concat();
    match wanted.kind {
        Kind::Share => match word.as_str() {
            "" | "share" | "fraction" | "ratio" | "mvc" | "max" => Ok(Scale::Bare),
            "pct" | "percent" | "percentage" | "%" | "pctmvc" | "percentmvc" | "%mvc" => Ok(Scale::Percent),
            _ => Err("load-unit"),
        },
        Kind::Of(_) if word.is_empty() => wanted.bare.map(Scale::Unit).ok_or("load-no-unit"),
        Kind::Of(dimension) => {
            let joined = unit.join(" ");
            let find = |word: &str| Unit::from_word(word, dimension);
            let known = find(&joined).or_else(|| find(&word)).or_else(|| spelled(&word, dimension));
            known.map(Scale::Unit).ok_or("load-unit")
        }
    }
}

/// Longer ways to write a unit, as heads of columns have them.
fn spelled(word: &str, dimension: Dimension) -> Option<Unit> {
    let unit = match word {
        "kgf" | "kgforce" | "kilogramforce" | "kilogramsforce" | "kilopond" => Unit::KilogramForce,
        "lbf" | "lbforce" | "lbsforce" | "poundforce" | "poundsforce" | "pounds" | "pound" => {
            Unit::PoundForce
        }
        "kn" => return None,
        _ => return None,
    };
    (unit.dimension() == dimension).then_some(unit)
}

fn value(cell: &str, column: &Column, kind: Kind, delimiter: u8) -> Result<f64, &'static str> {
    let cell = cell.trim();
    if cell.is_empty() {
        return Err("load-blank");
    }
    let end = cell
        .char_indices()
        .rev()
        .find(|(_, letter)| letter.is_ascii_digit() || *letter == '.')
        .map_or(0, |(at, letter)| at + letter.len_utf8());
    let (digits, own) = cell.split_at(end);
    let own = own.trim();
    let mark =
        if delimiter != b',' && digits.contains(',') { DecimalMark::Comma } else { DecimalMark::Point };
    let number = match digits.trim().parse::<f64>() {
        Ok(number) if mark == DecimalMark::Point => number,
        _ => reading::number(digits, Some(mark)).map_err(|_| "load-no-number")?.value,
    };
    if !number.is_finite() {
        return Err("load-no-number");
    }
    let scale = match (kind, own) {
        (_, "") => column.scale,
        (Kind::Share, "%") if column.scale == Scale::Percent || column.scale == Scale::Bare => Scale::Percent,
        (Kind::Of(dimension), own) => match (Unit::from_word(own, dimension), column.scale) {
            (Some(unit), Scale::Unit(head)) if unit == head => Scale::Unit(unit),
            (Some(_), _) => return Err("load-mixed-units"),
            (None, _) => return Err("load-no-number"),
        },
        (Kind::Share, _) => return Err("load-no-number"),
    };
    Ok(match scale {
        Scale::Unit(unit) => unit.to_canonical(number),
        Scale::Bare => number,
        Scale::Percent => number / 100.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const WANTED: &[Wanted] = &[
        Wanted { key: "length_m", words: &["length", "len"], kind: Kind::Of(Dimension::Length), bare: None },
        Wanted {
            key: "force_n",
            words: &["force", "pull", "load"],
            kind: Kind::Of(Dimension::Force),
            bare: None,
        },
    ];

    fn read_one(text: &str) -> Vec<f64> {
        let rows = read(text, WANTED, &[0, 1]).unwrap_or_else(|problems| panic!("{text}: {problems:?}"));
        rows[0].values.iter().map(|value| value.unwrap_or(f64::NAN)).collect()
    }

    #[test]
    fn heads_are_read_however_they_are_written() {
        let cases = [
            ("length_m,force_n\n0.6,13.2\n", 0.6, 13.2),
            ("Length (cm);Force (N)\n60;13,2\n", 0.6, 13.2),
            ("Force [kgf]\tlength mm\n1\t600\n", 0.6, 9.80665),
            ("# a note\nlength-in, pull lbs\n10, 2\n", 0.254, 8.896443230521),
            ("length_inches,force_lbf\n10,2\n", 0.254, 8.896443230521),
            ("lengthcm,forcekg\n60,1\n", 0.6, 9.80665),
            ("no,LENGTH M,Force (kg)\n1,0.6,1\n", 0.6, 9.80665),
            ("length in inches,force in pounds\n10,2\n", 0.254, 8.896443230521),
            ("length_cm,force_n\n60 cm,13.2 N\n", 0.6, 13.2),
            ("length_m,force_n\n6e-1,1.32e1\n", 0.6, 13.2),
        ];
        for (text, length, force) in cases {
            let read = read_one(text);
            assert!((read[0] - length).abs() < 1e-12 && (read[1] - force).abs() < 1e-9, "{text}: {read:?}");
        }
    }

    #[test]
    fn what_cannot_be_read_is_named_with_its_place() {
        let cases = [
            ("", "load-empty"),
            ("0.6,13.2\n0.7,20\n", "load-no-heads"),
            ("length_m,weight\n0.6,3\n", "load-no-column"),
            ("length,force_n\n0.6,3\n", "load-no-unit"),
            ("length_furlong,force_n\n0.6,3\n", "load-unit"),
            ("length_m,length_cm,force_n\n0.6,60,3\n", "load-two-columns"),
            ("length_m,force_n\n0.6,\n", "load-blank"),
            ("length_m,force_n\n0.6,three\n", "load-no-number"),
            ("length_m,force_n\n60 cm,3\n", "load-mixed-units"),
            ("length_m,force_n\n0.6,NaN\n", "load-no-number"),
            ("length_m,force_n\n0.6,inf\n", "load-no-number"),
        ];
        for (text, says) in cases {
            let problems = read(text, WANTED, &[0, 1]).err().unwrap_or_default();
            assert!(problems.iter().any(|problem| problem.says == says), "{text}: {problems:?}");
        }
    }
}
