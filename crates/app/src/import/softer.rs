//! Whether a correction takes a warning back. Such a one is never imported without a person saying so.

use std::collections::BTreeSet;

use serde_json::Value;

use crate::facts::Kind;

/// The new payload warns of less than the old one did.
pub(super) fn takes_a_warning_back(kind: Kind, before: &Value, after: &Value) -> bool {
    let lost = |name: &str| !words(after, name).is_superset(&words(before, name));
    let lower = |name: &str| match (number(before, name), number(after, name)) {
        (Some(before), Some(after)) => after < before,
        (Some(before), None) => 0 < before,
        (None, _) => false,
    };
    let was_yes = |name: &str| {
        before.get(name).and_then(Value::as_bool) == Some(true)
            && after.get(name).and_then(Value::as_bool) != Some(true)
    };
    match kind {
        Kind::Pain => lower("left") || lower("right") || lost("signs"),
        Kind::Intake => {
            was_yes("shoulder_pain_12_months")
                || was_yes("dislocation_or_slipping")
                || was_yes("operation")
                || lost("signs")
        }
        Kind::Screening => lost("visible_hollow") || !painful(after).is_superset(&painful(before)),
        Kind::Set => {
            let ended_in_pain = |set: &Value| set.get("end").and_then(Value::as_str) == Some("pain");
            ended_in_pain(before) && !ended_in_pain(after)
        }
        Kind::Swimmer => {
            before.get("emergency_note").is_some_and(|note| !note.is_null())
                && before.get("emergency_note") != after.get("emergency_note")
        }
        Kind::KitPiece => {
            let withdrawn = |piece: &Value| piece.get("withdrawn").is_some_and(|day| !day.is_null());
            withdrawn(before) && !withdrawn(after)
        }
        _ => false,
    }
}

fn number(value: &Value, name: &str) -> Option<i64> {
    value.get(name).and_then(Value::as_i64)
}

fn words(value: &Value, name: &str) -> BTreeSet<String> {
    let list = value.get(name).and_then(Value::as_array);
    list.into_iter().flatten().filter_map(Value::as_str).map(str::to_owned).collect()
}

/// Tests that were stopped because they hurt, by key and side.
fn painful(screening: &Value) -> BTreeSet<(String, String)> {
    let findings = screening.get("findings").and_then(Value::as_array);
    findings
        .into_iter()
        .flatten()
        .filter(|finding| finding.get("without_value").and_then(Value::as_str) == Some("pain"))
        .map(|finding| {
            let text = |name: &str| finding.get(name).and_then(Value::as_str).unwrap_or_default().to_owned();
            (text("key"), text("side"))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn less_of_a_warning_is_noticed_and_more_is_not() {
        let cases = [
            (Kind::Pain, json!({"left": 4, "right": 0}), json!({"left": 1, "right": 0}), true),
            (Kind::Pain, json!({"left": 4}), json!({"left": null}), true),
            (Kind::Pain, json!({"left": 0}), json!({"left": 4}), false),
            (Kind::Intake, json!({"operation": true}), json!({"operation": false}), true),
            (Kind::Intake, json!({"operation": null}), json!({"operation": true}), false),
            (Kind::Intake, json!({"signs": ["fainting"]}), json!({"signs": []}), true),
            (Kind::Screening, json!({"visible_hollow": ["left"]}), json!({}), true),
            (
                Kind::Screening,
                json!({"findings": [{"key": "er_force", "side": "left", "without_value": "pain"}]}),
                json!({"findings": [{"key": "er_force", "side": "left", "value": 80.0}]}),
                true,
            ),
            (Kind::Set, json!({"end": "pain"}), json!({"end": "form"}), true),
            (Kind::Set, json!({"end": "form"}), json!({"end": "pain"}), false),
            (Kind::Growth, json!({"height_cm": 160.0}), json!({"height_cm": 161.0}), false),
        ];
        for (kind, before, after, wanted) in cases {
            assert_eq!(takes_a_warning_back(kind, &before, &after), wanted, "{kind:?} {before} {after}");
        }
    }
}
