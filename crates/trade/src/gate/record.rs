//! What was on record on the day asked about: later facts do not exist yet.

use jiff::ToSpan;
use jiff::civil::Date;
use quantity::Pain;

use crate::history::{
    Absence, Ban, Clearance, Consent, GrowthMeasure, GuardianTold, History, Illness, InjuryKind, Intake,
    Limit, PainReport, Referral, Reopening, Screening, Session, Swimmer, WaterAdvice, WaterWeek,
};
use crate::protocol::{Parameters, Protocol};
use crate::side::Side;

/// One swimmer's facts up to and including one day.
pub(crate) struct Record<'a> {
    pub(crate) protocol: &'a Protocol,
    pub(crate) on: Date,
    pub(crate) swimmer: &'a Swimmer,
    pub(crate) consents: Vec<&'a Consent>,
    pub(crate) intakes: Vec<&'a Intake>,
    pub(crate) screenings: Vec<&'a Screening>,
    pub(crate) growth: Vec<&'a GrowthMeasure>,
    pub(crate) pains: Vec<&'a PainReport>,
    pub(crate) illnesses: Vec<&'a Illness>,
    pub(crate) absences: Vec<&'a Absence>,
    pub(crate) bans: Vec<&'a Ban>,
    pub(crate) referrals: Vec<&'a Referral>,
    /// Only those whose clinician was licensed on the day of the letter: the others end nothing.
    pub(crate) clearances: Vec<&'a Clearance>,
    pub(crate) limits: Vec<&'a Limit>,
    pub(crate) reopenings: Vec<&'a Reopening>,
    pub(crate) water_advice: Vec<&'a WaterAdvice>,
    pub(crate) guardian_told: Vec<&'a GuardianTold>,
    pub(crate) sessions: Vec<&'a Session>,
    pub(crate) water_weeks: Vec<&'a WaterWeek>,
}

impl<'a> Record<'a> {
    /// Leaves out what had not happened yet.
    pub(crate) fn known(protocol: &'a Protocol, history: &'a History, on: Date) -> Self {
        fn by<T>(facts: &[T], on: Date, day: impl Fn(&T) -> Date) -> Vec<&T> {
            facts.iter().filter(|fact| day(fact) <= on).collect()
        }
        let mut clearances = by(&history.clearances, on, |fact| fact.date);
        clearances.retain(|letter| letter.clinician.is_licensed_on(letter.date));
        Self {
            protocol,
            on,
            swimmer: &history.swimmer,
            consents: by(&history.consents, on, |fact| fact.signed),
            intakes: by(&history.intakes, on, |fact| fact.date),
            screenings: by(&history.screenings, on, |fact| fact.date),
            growth: by(&history.growth, on, |fact| fact.date),
            pains: by(&history.pains, on, |fact| fact.date),
            illnesses: by(&history.illnesses, on, |fact| fact.from),
            absences: by(&history.absences, on, |fact| fact.from),
            bans: by(&history.bans, on, |fact| fact.from),
            referrals: by(&history.referrals, on, |fact| fact.opened),
            clearances,
            limits: by(&history.limits, on, |fact| fact.signed),
            reopenings: by(&history.reopenings, on, |fact| fact.date),
            water_advice: by(&history.water_advice, on, |fact| fact.date),
            guardian_told: by(&history.guardian_told, on, |fact| fact.date),
            sessions: by(&history.sessions, on, |fact| fact.date),
            water_weeks: by(&history.water_weeks, on, |fact| fact.from),
        }
    }

    pub(crate) fn parameters(&self) -> &'a Parameters {
        &self.protocol.parameters
    }

    /// Age in completed years on the day asked about.
    pub(crate) fn age(&self) -> i16 {
        self.swimmer.age_on(self.on)
    }

    /// A licensed letter, dated on or after the day, covers this shoulder, or the person where none is named.
    /// A letter for one shoulder never covers the other one or the person.
    pub(crate) fn is_cleared(&self, side: Option<Side>, since: Date) -> bool {
        self.clearances
            .iter()
            .any(|letter| since <= letter.date && (letter.side.is_none() || letter.side == side))
    }

    /// A licensed letter about this kind of injury: it answers a question that named no shoulder.
    pub(crate) fn has_letter_about(&self, injury: InjuryKind, since: Date) -> bool {
        self.clearances.iter().any(|letter| since <= letter.date && letter.injury == Some(injury))
    }

    /// What is still open of something said of the whole person that only concerns shoulders: nothing, one of them,
    /// or all (none named). The outer none means that letters cover everything.
    pub(crate) fn open_scope(&self, since: Date) -> Option<Option<Side>> {
        match Side::BOTH.map(|side| self.is_cleared(Some(side), since)) {
            [true, true] => None,
            [true, false] => Some(Some(Side::Right)),
            [false, true] => Some(Some(Side::Left)),
            [false, false] => Some(None),
        }
    }

    /// A signed limit in force on that day lets this shoulder go on with this much one-sided pain.
    pub(crate) fn limit_allows(&self, side: Side, pain: Pain, day: Date) -> bool {
        self.limits.iter().any(|limit| {
            limit.signed <= day
                && day <= limit.until
                && limit.clinician.is_licensed_on(limit.signed)
                && limit.side.is_none_or(|limited| limited == side)
                && limit.allows_pain_up_to.is_some_and(|allowed| pain <= allowed)
        })
    }

    /// Screenings, newest first.
    pub(crate) fn newest_screenings(&self) -> impl Iterator<Item = &'a Screening> + '_ {
        self.screenings.iter().rev().copied()
    }
}

/// A day so many days later; the calendar's own end is the limit.
pub(crate) fn days_after(day: Date, days: u16) -> Date {
    day.saturating_add(i64::from(days).days())
}

/// The same day of a later month, or that month's last day.
pub(crate) fn months_after(day: Date, months: u8) -> Date {
    day.saturating_add(i64::from(months).months())
}

/// The birthday on which this age is reached; somebody born on 29 February has it on 1 March, as ages are counted.
pub(crate) fn birthday(swimmer: &Swimmer, age: i16) -> Date {
    let day = swimmer.born.saturating_add(i64::from(age).years());
    if day.day() == swimmer.born.day() { day } else { days_after(day, 1) }
}
