//! A kit row: one mark of the club, and what it measures. A band is known by its measured force.

use serde_json::{Map, Value, json};

use super::cells::Line;
use super::choices;
use super::columns::Col;
use super::gather::{Draft, Given};
use super::plan::Subject;
use super::problem::{Problem, Said};
use crate::facts::{Kind, KitWord};

/// Reads a kit row.
pub(super) fn read(line: &mut Line<'_>) -> Given {
    let mark = line.text(Col::Mark);
    if mark.is_none() && !line.is_blocked() {
        line.push_in(Col::Mark, Problem::new("import-mark-missing"));
    }
    let kind = line.choice(Col::KitKind, choices::KIT, &["band", "weight", "ball", "mat", "anchor", "other"]);
    if kind.is_none() && !line.is_blocked() {
        line.push_in(Col::KitKind, Problem::new("import-kit-kind-missing"));
    }
    let force = line.measured(Col::DoubleForce, "band_force");
    let rest_length = line.measured(Col::RestLength, "band_length");
    let mass = line.measured(Col::PieceMass, "hand_weight");
    let pieces = line.whole(Col::Pieces, 1, 999);
    let in_service = line.past_day(Col::InService);
    let latex = line.yes_no(Col::Latex);
    match kind {
        Some(KitWord::Band) if force.is_none() && !line.is_blocked() => {
            let note =
                Problem::note("import-note-band-not-measured").suggest(Said::new("import-try-measure-band"));
            line.push_in(Col::DoubleForce, note);
        }
        Some(KitWord::Weight) if mass.is_none() && !line.is_blocked() => {
            line.push_in(Col::PieceMass, Problem::new("import-weight-without-mass"));
        }
        _ => {}
    }
    let (Some(mark), Some(kind)) = (mark.clone(), kind) else {
        return Given { about: mark.unwrap_or_default(), drafts: Vec::new() };
    };
    let entered: Vec<String> = [&force, &rest_length, &mass]
        .into_iter()
        .flatten()
        .map(|measured| measured.entered.clone())
        .collect();
    let mut payload = Map::new();
    let mut put = |name: &str, value: Option<Value>| {
        if let Some(value) = value {
            payload.insert(name.to_owned(), value);
        }
    };
    put("mark", Some(json!(mark)));
    put("kind", Some(json!(kind)));
    put("force_at_double_n", force.map(|measured| json!(measured.value)));
    put("rest_length_m", rest_length.map(|measured| json!(measured.value)));
    put("mass_kg", mass.map(|measured| json!(measured.value)));
    put("pieces", pieces.map(|pieces| json!(pieces)));
    put("in_service", in_service.map(|day| json!(day)));
    put("latex", latex.map(|latex| json!(latex)));
    put("as_entered", (!entered.is_empty()).then(|| json!(entered.join("; "))));
    let payload = Value::Object(payload);
    let key = super::key::natural_key(Kind::KitPiece, store::SubjectId::CLUB, &payload).unwrap_or_default();
    Given { about: mark, drafts: vec![Draft { key, subject: Subject::Club, kind: Kind::KitPiece, payload }] }
}
