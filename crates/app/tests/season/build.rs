//! A small squad whose sessions a test writes down.

use app::desk::{Author, Desk, Draft};
use app::facts::Kind;
use app::moment::Moment;
use jiff::ToSpan;
use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use serde_json::{Value, json};
use store::{Store, SubjectId};
use uuid::Uuid;

/// The day that tests look back from.
pub(crate) const TODAY: Date = date(2026, 3, 9);

pub(crate) fn swimmer(number: u128) -> SubjectId {
    SubjectId::from_uuid(Uuid::from_u128((5 << 100) + number))
}

fn draft(kind: Kind, payload: &Value) -> Draft {
    Draft { kind, payload: payload.to_string(), corrects: None }
}

/// Facts of a squad, written in whatever order a test likes.
#[derive(Default)]
pub(crate) struct Squad(Vec<(SubjectId, Draft)>);

impl Squad {
    pub(crate) fn swimmers(count: u128) -> Squad {
        let mut squad = Squad::default();
        for number in 1..=count {
            let fact =
                json!({ "name": format!("Swimmer {number}"), "born": "2008-05-01", "squad": "Seniors" });
            squad.add(number, Kind::Swimmer, &fact);
        }
        squad
    }

    pub(crate) fn add(&mut self, number: u128, kind: Kind, payload: &Value) {
        self.0.push((swimmer(number), draft(kind, payload)));
    }

    /// A session, so many days before today, of external rotation with one arm; each set as seconds and how it ended.
    pub(crate) fn session(&mut self, number: u128, days_ago: i32, side: &str, sets: &[(f64, &str)]) {
        let day = TODAY.checked_sub(days_ago.days()).unwrap().to_string();
        self.add(number, Kind::Session, &json!({ "date": day, "context": "after-practice" }));
        for (place, (seconds, end)) in sets.iter().enumerate() {
            let mut fact = json!({
                "date": day, "exercise": "RC-2", "side": side, "planned": "b16", "used": "b16",
                "prescribed_sets": sets.len(), "number": place + 1, "seconds": seconds,
                "end": if end.starts_with("cap") { "cap" } else { end },
            });
            if *end == "form" {
                fact["fault"] = json!("F01");
            }
            if end.starts_with("cap") {
                fact["seen"] = json!(*end == "cap");
            }
            if place > 0 {
                fact["rest_before_s"] = json!(30.0);
            }
            self.add(number, Kind::Set, &fact);
        }
    }

    /// A number for both shoulders, so many days before today.
    pub(crate) fn pain(&mut self, number: u128, days_ago: i32, pain: i64) {
        let day = TODAY.checked_sub(days_ago.days()).unwrap().to_string();
        self.add(number, Kind::Pain, &json!({ "date": day, "when": "before", "left": pain, "right": 0 }));
    }

    /// Kilometres of a week, so many weeks before this one.
    pub(crate) fn water(&mut self, number: u128, weeks_ago: i32, km: f64) {
        let monday = TODAY.checked_sub((7 * weeks_ago).days()).unwrap().to_string();
        self.add(number, Kind::WaterWeek, &json!({ "from": monday, "km": km }));
    }

    /// The facts the other way round.
    pub(crate) fn backwards(mut self) -> Squad {
        self.0.reverse();
        self
    }

    pub(crate) fn desk(&self) -> Desk {
        let mut desk =
            Desk::new(Store::in_memory().unwrap(), trade::protocol::read::shipped().clone()).unwrap();
        let moment = Moment::of("2026-03-09T12:00:00Z".parse().unwrap(), &TimeZone::UTC);
        let author = Author { name: "Olga Owner".into(), device: "test".into() };
        desk.record_many(&moment, &author, &self.0).unwrap();
        desk
    }
}
