//! For how long records are kept once a swimmer has left. Law differs by country, so there is no default: until a club
//! has settled it, nobody is proposed. A proposal is all this is; erasing is a person's act.

use door::permit::{About, Thing};
use door::principal::Principal;
use jiff::Span;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use store::SubjectId;

use crate::desk::Desk;
use crate::entry::audit;
use crate::entry::audit::Act;
use crate::error::{AppError, ErrorKind};
use crate::moment::Moment;

/// The name under which it is kept.
const SETTING: &str = "retention";

/// What a club has settled: both must have passed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Retention {
    /// Years after the swimmer has left.
    pub years_after_leaving: u8,
    /// Not before this age, where records of minors must outlast their majority.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until_age: Option<u8>,
}

/// Somebody whose record is kept for longer than the club has settled.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Overdue {
    /// Who.
    pub subject: SubjectId,
    /// Name.
    pub name: String,
    /// Day the swimmer left.
    pub left: Date,
    /// First day on which it is proposed.
    pub since: Date,
}

impl Retention {
    /// The first day on which erasing is proposed for somebody born and gone on these days.
    pub fn ends(&self, born: Date, left: Date) -> Date {
        let years = |day: Date, years: u8| day.saturating_add(Span::new().years(i64::from(years)));
        let after_leaving = years(left, self.years_after_leaving);
        self.until_age.map_or(after_leaving, |age| after_leaving.max(years(born, age)))
    }

    fn check(&self) -> Result<(), AppError> {
        let fits =
            self.years_after_leaving <= 50 && self.until_age.is_none_or(|age| (18..=60).contains(&age));
        if fits { Ok(()) } else { Err(AppError::new(ErrorKind::Input, "privacy-retention-range")) }
    }
}

impl Desk {
    /// What the club has settled, if it has.
    pub fn retention(&self) -> Result<Option<Retention>, AppError> {
        let Some(text) = self.store().setting(SETTING)? else { return Ok(None) };
        let read = serde_json::from_str(&text);
        read.map(Some).map_err(|error| {
            AppError::new(ErrorKind::Storage, "error-storage")
                .with("detail", error)
                .hint("error-storage-hint")
        })
    }

    /// Settles it. What was settled before is kept in the file.
    pub fn set_retention(
        &mut self,
        moment: &Moment,
        who: &Principal,
        retention: &Retention,
    ) -> Result<(), AppError> {
        self.may(who, Thing::SetRetention, About::Everybody, moment.today)?;
        retention.check()?;
        let text = serde_json::to_string(retention).expect("two numbers can always be written as JSON");
        let entry = audit::by(moment, who, Act::SetRetention, Some(Thing::SetRetention));
        let now = moment.unix_millis;
        self.store_mut().at_door(|door| {
            door.insert_setting(SETTING, &text, now)?;
            door.audit(&entry.into())
        })?;
        Ok(())
    }

    /// Everybody whose record is kept for longer than the club has settled, the longest first.
    pub fn overdue_for_erasure(&self, on: Date) -> Result<Vec<Overdue>, AppError> {
        let Some(retention) = self.retention()? else { return Ok(Vec::new()) };
        let mut overdue: Vec<Overdue> = self
            .people()
            .filter_map(|person| {
                let swimmer = &person.read.swimmer;
                let left = swimmer.left?;
                let since = retention.ends(swimmer.born, left);
                let name = swimmer.name.clone();
                (since <= on).then_some(Overdue { subject: person.subject, name, left, since })
            })
            .collect();
        overdue.sort_by(|one, other| (one.since, &one.name).cmp(&(other.since, &other.name)));
        Ok(overdue)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn both_times_must_have_passed() {
        let (born, left) = (date(2012, 2, 29), date(2026, 8, 31));
        let ends =
            |years_after_leaving, until_age| Retention { years_after_leaving, until_age }.ends(born, left);
        assert_eq!(ends(3, None), date(2029, 8, 31));
        assert_eq!(ends(3, Some(18)), date(2030, 2, 28));
        assert_eq!(ends(10, Some(18)), date(2036, 8, 31));
        assert!(Retention { years_after_leaving: 3, until_age: Some(17) }.check().is_err());
        assert!(Retention { years_after_leaving: 51, until_age: None }.check().is_err());
        assert!(Retention { years_after_leaving: 0, until_age: None }.check().is_ok());
    }
}
