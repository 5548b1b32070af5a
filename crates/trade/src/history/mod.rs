//! What is on record about one swimmer: plain dated facts, already corrected and superseded.
//!
//! Everything here is a function of the *set* of facts: the constructors sort, so arrival order cannot matter.
//!
//! - [`person`]: who, consent, intake, screening, growth.
//! - [`body`]: pain, signs, illness, absence, referral, clearance, limits.
//! - [`work`]: teaching, sessions and sets, confirmed rungs, the calendar around them.
//! - [`weekly`]: the weekly check, single practices.

pub mod body;
pub mod person;
pub mod weekly;
pub mod work;

pub use body::*;
pub use person::*;
pub use weekly::*;
pub use work::*;

/// One swimmer's record, as the gate and the dosing rules read it.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    /// Who.
    pub swimmer: Swimmer,
    /// Consents ever signed.
    pub consents: Vec<Consent>,
    /// Intake questions, newest last.
    pub intakes: Vec<Intake>,
    /// Screenings, oldest first.
    pub screenings: Vec<Screening>,
    /// Body measurements, oldest first.
    pub growth: Vec<GrowthMeasure>,
    /// Pain and sign reports, oldest first.
    pub pains: Vec<PainReport>,
    /// Illnesses, oldest first.
    pub illnesses: Vec<Illness>,
    /// Known reasons for being away, oldest first.
    pub absences: Vec<Absence>,
    /// A doctor's or a guardian's "do not train".
    pub bans: Vec<Ban>,
    /// Referrals, oldest first.
    pub referrals: Vec<Referral>,
    /// Clearances by licensed clinicians, oldest first.
    pub clearances: Vec<Clearance>,
    /// Limits that a licensed clinician has signed, oldest first.
    pub limits: Vec<Limit>,
    /// "Out today" ended by a person, oldest first.
    pub reopenings: Vec<Reopening>,
    /// What a person decided about the water, oldest first.
    pub water_advice: Vec<WaterAdvice>,
    /// Guardians told, oldest first.
    pub guardian_told: Vec<GuardianTold>,
    /// Exercises taught, oldest first.
    pub taught: Vec<Taught>,
    /// Exercises signed off, oldest first.
    pub sign_offs: Vec<SignOff>,
    /// Dryland sessions, oldest first.
    pub sessions: Vec<Session>,
    /// Rungs that a person confirmed, oldest first.
    pub placements: Vec<Placement>,
    /// Kilometres swum, by week, oldest first.
    pub water_weeks: Vec<WaterWeek>,
    /// Single water practices, where a club writes them down, oldest first.
    pub water_sessions: Vec<WaterSession>,
    /// Weekly checks, oldest first.
    pub weekly_checks: Vec<WeeklyCheck>,
    /// Season, phases and meets of this swimmer.
    pub calendar: Calendar,
}

impl History {
    /// An empty record of one swimmer.
    pub fn new(swimmer: Swimmer) -> Self {
        Self {
            swimmer,
            consents: Vec::new(),
            intakes: Vec::new(),
            screenings: Vec::new(),
            growth: Vec::new(),
            pains: Vec::new(),
            illnesses: Vec::new(),
            absences: Vec::new(),
            bans: Vec::new(),
            referrals: Vec::new(),
            clearances: Vec::new(),
            limits: Vec::new(),
            reopenings: Vec::new(),
            water_advice: Vec::new(),
            guardian_told: Vec::new(),
            taught: Vec::new(),
            sign_offs: Vec::new(),
            sessions: Vec::new(),
            placements: Vec::new(),
            water_weeks: Vec::new(),
            water_sessions: Vec::new(),
            weekly_checks: Vec::new(),
            calendar: Calendar::default(),
        }
    }

    /// Puts every list in date order, so that the order in which facts arrived cannot matter.
    ///
    /// Ties are broken by content, never by position: two records of one day come out the same way round
    /// whatever way round they went in.
    pub fn in_order(mut self) -> Self {
        by(&mut self.consents, |fact| fact.signed);
        by(&mut self.intakes, |fact| fact.date);
        by(&mut self.screenings, |fact| fact.date);
        by(&mut self.growth, |fact| fact.date);
        by(&mut self.pains, |fact| (fact.date, fact.when.order()));
        by(&mut self.illnesses, |fact| fact.from);
        by(&mut self.absences, |fact| fact.from);
        by(&mut self.bans, |fact| fact.from);
        by(&mut self.referrals, |fact| fact.opened);
        by(&mut self.clearances, |fact| fact.date);
        by(&mut self.limits, |fact| fact.signed);
        by(&mut self.reopenings, |fact| fact.date);
        by(&mut self.water_advice, |fact| fact.date);
        by(&mut self.guardian_told, |fact| fact.date);
        by(&mut self.taught, |fact| (fact.date, fact.exercise.clone()));
        by(&mut self.sign_offs, |fact| (fact.date, fact.exercise.clone()));
        for session in &mut self.sessions {
            for block in &mut session.blocks {
                by(&mut block.sets, |set| set.number);
            }
            by(&mut session.blocks, |block| (block.exercise.clone(), block.side));
        }
        by(&mut self.sessions, |fact| (fact.date, fact.number));
        by(&mut self.placements, |fact| (fact.date, fact.exercise.clone(), fact.side));
        by(&mut self.water_weeks, |fact| fact.from);
        by(&mut self.water_sessions, |fact| fact.date);
        by(&mut self.weekly_checks, |fact| fact.date);
        self.calendar.in_order();
        self
    }
}

/// Sorts by a key; ties go by content. Content is written out only where there is a tie.
fn by<T: std::fmt::Debug, K: Ord>(facts: &mut [T], key: impl Fn(&T) -> K) {
    facts.sort_by(|one, other| {
        key(one).cmp(&key(other)).then_with(|| format!("{one:?}").cmp(&format!("{other:?}")))
    });
}
