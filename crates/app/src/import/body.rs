//! What a roster row may say beside the name: body size, consent, intake answers.

use jiff::civil::Date;
use serde_json::{Map, Value, json};
use trade::history::Sign;

use super::cells::Line;
use super::choices;
use super::columns::Col;
use super::gather::Draft;
use super::people::Known;
use super::plan::Subject;
use super::problem::{Problem, Said};
use super::roster::Guardian;
use super::words::squashed;
use crate::facts::{ConsentWord, Kind};

fn draft(kind: Kind, subject: Subject, date: Date, payload: Value) -> Option<Draft> {
    let id = subject.id()?;
    Some(Draft { key: format!("{}/{id}/{date}", kind.word()), subject, kind, payload })
}

/// Height, sitting height, mass; all of the day on which they were measured.
pub(super) fn growth(line: &mut Line<'_>, known: &Known<'_>, subject: Subject) -> Option<Draft> {
    let height = line.measured(Col::Height, "height");
    let sitting = line.measured(Col::SittingHeight, "sitting_height");
    let mass = line.measured(Col::BodyMass, "body_mass");
    let date = line.past_day(Col::MeasuredOn);
    if height.is_none() && sitting.is_none() && mass.is_none() {
        return None;
    }
    let Some(date) = date else {
        if !line.is_blocked() {
            let problem = Problem::new("import-measured-when").suggest(Said::new("import-try-measured-on"));
            line.push_in(Col::MeasuredOn, problem);
        }
        return None;
    };
    if let (Some(height), Some(sitting)) = (&height, &sitting)
        && height.value <= sitting.value
    {
        line.push_in(Col::SittingHeight, Problem::new("import-sitting-taller"));
    }
    let tenths = |value: f64, factor: f64| (value * factor * 100.0).round() / 100.0;
    let mut payload = Map::new();
    payload.insert("date".to_owned(), json!(date));
    if let Some(height) = &height {
        payload.insert("height_cm".to_owned(), json!(tenths(height.value, 100.0)));
    }
    if let Some(sitting) = sitting {
        payload.insert("sitting_height_cm".to_owned(), json!(tenths(sitting.value, 100.0)));
    }
    if let Some(mass) = mass {
        payload.insert("mass_kg".to_owned(), json!(tenths(mass.value, 1.0)));
    }
    let draft = draft(Kind::Growth, subject, date, Value::Object(payload))?;
    if height.is_none() && (known.on_record)(Kind::Growth, &draft.key).payload().is_none() {
        if !line.is_blocked() {
            line.push_in(Col::Height, Problem::new("import-height-missing"));
        }
        return None;
    }
    Some(draft)
}

/// A consent with its day and the items agreed to. Nothing is taken as agreed that the file does not name.
pub(super) fn consent(
    line: &mut Line<'_>,
    subject: Subject,
    born: Option<Date>,
    guardian: Option<&Guardian>,
) -> Option<Draft> {
    let signed = line.past_day(Col::ConsentSigned);
    let items = line.text(Col::ConsentItems).filter(|text| !choices::is_dash(text));
    let signer = line.text(Col::ConsentSigner);
    let relation = line.text(Col::ConsentRelation);
    let (signed, items) = match (signed, items) {
        (Some(signed), Some(items)) => (signed, items),
        (Some(_), None) => {
            let note =
                Problem::note("import-note-consent-items").suggest(Said::new("import-try-consent-items"));
            line.push_in(Col::ConsentSigned, note);
            return None;
        }
        (None, Some(_)) if !line.is_blocked() => {
            line.push_in(Col::ConsentSigned, Problem::new("import-consent-when"));
            return None;
        }
        _ => return None,
    };
    let granted = match consent_items(&items) {
        Ok(granted) => granted,
        Err(word) => {
            let problem = Problem::new("import-consent-item-unknown")
                .with("word", word)
                .suggest(Said::new("import-try-consent-items"));
            line.push_in(Col::ConsentItems, problem);
            return None;
        }
    };
    let of_age = born.is_some_and(|born| is_of_age(born, signed));
    let (signer, relation) = match (signer, relation, guardian) {
        (Some(signer), Some(relation), _) => (signer, relation),
        (Some(signer), None, Some(guardian)) if squashed(&signer) == squashed(&guardian.name) => {
            (signer, guardian.relation.clone())
        }
        (Some(signer), None, _) => (signer, if of_age { "self" } else { "guardian" }.to_owned()),
        (None, relation, _) if of_age => {
            (super::roster::name_of(line).unwrap_or_default(), relation.unwrap_or_else(|| "self".to_owned()))
        }
        (None, relation, Some(guardian)) if !guardian.name.is_empty() => {
            (guardian.name.clone(), relation.unwrap_or_else(|| guardian.relation.clone()))
        }
        (None, _, _) => {
            if born.is_some() {
                let problem =
                    Problem::new("import-consent-by-whom").suggest(Said::new("import-try-signed-by"));
                line.push_in(Col::ConsentSigned, problem);
            }
            return None;
        }
    };
    let payload = json!({ "signed": signed, "granted": granted, "signer": signer, "relation": relation });
    draft(Kind::Consent, subject, signed, payload)
}

/// Eighteen completed years on the day.
fn is_of_age(born: Date, day: Date) -> bool {
    let years = day.year() - born.year();
    18 < years || (years == 18 && (born.month(), born.day()) <= (day.month(), day.day()))
}

/// "all", "all but photo", or a list; the word that is none of the items, if there is one.
fn consent_items(text: &str) -> Result<Vec<ConsentWord>, String> {
    let item = |word: &str| {
        choices::CONSENT
            .iter()
            .find(|(known, _)| *known == squashed(word))
            .map(|(_, item)| *item)
            .ok_or_else(|| word.trim().to_owned())
    };
    let list = |text: &str| -> Result<Vec<ConsentWord>, String> {
        text.split([',', ';', '/', '+', '\n']).filter(|word| !word.trim().is_empty()).map(item).collect()
    };
    let lowered = text.trim().to_lowercase();
    if lowered == "none" {
        return Ok(Vec::new());
    }
    let granted = match lowered.strip_prefix("all") {
        Some("") => choices::CONSENT_ITEMS.to_vec(),
        Some(rest) => {
            let rest = rest.trim_start();
            let exceptions = ["but ", "except ", "without "].iter().find_map(|word| rest.strip_prefix(word));
            let refused = list(exceptions.ok_or_else(|| text.trim().to_owned())?)?;
            choices::CONSENT_ITEMS.into_iter().filter(|item| !refused.contains(item)).collect()
        }
        None => list(text)?,
    };
    Ok(choices::CONSENT_ITEMS.into_iter().filter(|item| granted.contains(item)).collect())
}

/// Intake answers. A blank is not answered; it is never a no.
pub(super) fn intake(line: &mut Line<'_>, subject: Subject) -> Option<Draft> {
    let pain = line.yes_no(Col::PainYear);
    let dislocated = line.yes_no(Col::Dislocated);
    let operation = line.yes_no(Col::Operation);
    let asked = line.yes_no(Col::SignsAsked);
    let signs = signs(line);
    let date = line.past_day(Col::IntakeDate);
    if pain.is_none() && dislocated.is_none() && operation.is_none() && asked.is_none() && signs.is_none() {
        return None;
    }
    let Some(date) = date else {
        if !line.is_blocked() {
            let problem = Problem::new("import-intake-when").suggest(Said::new("import-try-intake-date"));
            line.push_in(Col::IntakeDate, problem);
        }
        return None;
    };
    let mut payload = Map::new();
    payload.insert("date".to_owned(), json!(date));
    for (name, answer) in
        [("shoulder_pain_12_months", pain), ("dislocation_or_slipping", dislocated), ("operation", operation)]
    {
        if let Some(answer) = answer {
            payload.insert(name.to_owned(), json!(answer));
        }
    }
    match (asked, &signs) {
        // Asked, but no answer written: that is not "all answered".
        (Some(true), None) => {
            let note = Problem::note("import-note-signs-open").suggest(Said::new("import-try-signs"));
            line.push_in(Col::SignsAsked, note);
        }
        (Some(asked), Some(_)) => {
            payload.insert("signs_asked".to_owned(), json!(asked));
        }
        _ => {}
    }
    if let Some(signs) = signs {
        let words: Vec<&str> = signs.iter().map(|sign| sign.word()).collect();
        payload.insert("signs".to_owned(), json!(words));
    }
    draft(Kind::Intake, subject, date, Value::Object(payload))
}

/// Signs answered with yes: "none" or "no", or their words.
fn signs(line: &mut Line<'_>) -> Option<Vec<Sign>> {
    let text = line.text(Col::Signs).filter(|text| !choices::is_dash(text))?;
    if choices::yes_no(&squashed(&text)) == Some(choices::Answer::No) {
        return Some(Vec::new());
    }
    let mut signs = Vec::new();
    for word in text.split([',', ';', '/', '\n']).filter(|word| !word.trim().is_empty()) {
        match Sign::ALL.into_iter().find(|sign| squashed(sign.word()) == squashed(word)) {
            Some(sign) => signs.push(sign),
            None => {
                let words: Vec<&str> = Sign::ALL.iter().map(|sign| sign.word()).collect();
                let problem = Problem::new("import-sign-unknown")
                    .with("word", word.trim())
                    .suggest(Said::new("import-try-one-of").with("words", words.join(", ")));
                line.push_in(Col::Signs, problem);
            }
        }
    }
    signs.sort();
    signs.dedup();
    Some(signs)
}
