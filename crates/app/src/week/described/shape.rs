//! The shape `cuffwright.week/1`: fields are added within a version, never renamed or taken away.

use serde::Serialize;

/// The whole answer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeekAnswer {
    /// `SHAPE`.
    pub shape: &'static str,
    /// Zone of every time.
    pub zone: String,
    /// First day.
    pub from: String,
    /// Last day.
    pub to: String,
    /// `plan`, `clash`, or `out-of-time` when neither was found within the limit.
    pub outcome: &'static str,
    /// True when a plan was found; none when time ran out first.
    pub feasible: Option<bool>,
    /// True when no plan has more points, or when the clash is as small as it can be.
    pub proven: bool,
    /// Points of the plan.
    pub points: Option<i64>,
    /// No plan has more points than this; none when no bound was found in time.
    pub at_most: Option<i64>,
    /// What might still be gained, as a share of the points; zero when proven.
    pub gap: Option<f64>,
    /// Who trains when. After a repair, the repaired week.
    pub plan: Vec<SessionWord>,
    /// Where the points come from.
    pub preferences: Vec<TallyWord>,
    /// Groups that have fewer sessions than usual on purpose.
    pub reduced: Vec<ReducedWord>,
    /// Why there is no plan.
    pub clash: Option<ClashWord>,
    /// The least change under sessions that people already know; none when no known sessions were described.
    pub repair: Option<RepairWord>,
    /// Answers to wishes.
    pub requests: Vec<ReplyWord>,
    /// Times that a group cannot have, with every reason.
    pub refused: Vec<RefusedWord>,
    /// How the file was taken.
    pub notes: Vec<String>,
}

/// A time at a place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TimeWord {
    /// Place.
    pub place: String,
    /// Civil day.
    pub day: String,
    /// Start, HH:MM.
    pub from: String,
    /// End, HH:MM.
    pub to: String,
}

/// A session.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SessionWord {
    /// Group.
    pub group: String,
    /// When and where.
    #[serde(flatten)]
    pub at: TimeWord,
    /// Points.
    pub points: i64,
    /// What the points are for.
    pub because: Vec<PointWord>,
    /// Set when somebody overruled the rule about water by name: excluded from progression.
    pub overruled: Option<OverrideWord>,
}

/// A named override.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OverrideWord {
    /// Who.
    pub by: String,
    /// Why.
    pub reason: String,
    /// Never counts towards a step up.
    pub counts: bool,
}

/// Points for one thing.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PointWord {
    /// Code of the preference.
    pub preference: &'static str,
    /// Points.
    pub points: i64,
}

/// Points for one thing over the plan.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TallyWord {
    /// Code of the preference.
    pub preference: &'static str,
    /// In words.
    pub words: String,
    /// Sessions concerned.
    pub sessions: usize,
    /// Points.
    pub points: i64,
}

/// Fewer sessions on purpose: never counted as missed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReducedWord {
    /// Group.
    pub group: String,
    /// Sessions it wants otherwise.
    pub usual: u8,
    /// Sessions planned.
    pub planned: u8,
    /// Why.
    pub words: String,
}

/// A named requirement.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RequirementWord {
    /// Code of the requirement.
    pub requirement: &'static str,
    /// Group it is about, if it is about one.
    pub group: Option<String>,
    /// Place, closure or kit it is about, if it is about one.
    pub about: Option<String>,
    /// In words.
    pub words: String,
}

/// Requirements that cannot hold together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ClashWord {
    /// True when none can be left out of the list.
    pub smallest: bool,
    /// The requirements.
    pub requirements: Vec<MemberWord>,
}

/// One of them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MemberWord {
    /// Which.
    #[serde(flatten)]
    pub what: RequirementWord,
    /// True when nobody can give it up.
    pub fixed: bool,
    /// True when giving up this one alone gives a plan.
    pub relaxing_helps: Option<bool>,
    /// What giving it up buys, in words.
    pub buys: String,
    /// The plan there would be.
    pub plan: Vec<SessionWord>,
}

/// A repair.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RepairWord {
    /// What the known sessions break.
    pub broken: Vec<BrokenWord>,
    /// Number of sessions that stay.
    pub kept: usize,
    /// What changes.
    pub moves: Vec<MoveWord>,
}

/// A broken requirement.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BrokenWord {
    /// Which.
    #[serde(flatten)]
    pub what: RequirementWord,
    /// Why it is broken.
    pub why: String,
    /// Sessions concerned.
    pub sessions: Vec<String>,
}

/// A session that moves.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct MoveWord {
    /// Group.
    pub group: String,
    /// Where people know it; none when it is new.
    pub from: Option<TimeWord>,
    /// Where it goes; none when it falls out.
    pub to: Option<TimeWord>,
}

/// What is said to a wish.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ReplyWord {
    /// Group.
    pub group: String,
    /// The wish.
    #[serde(flatten)]
    pub at: TimeWord,
    /// Granted or not.
    pub allowed: bool,
    /// Every reason against it.
    pub reasons: Vec<BrokenWord>,
    /// Something better, at most three.
    pub offers: Vec<OfferWord>,
    /// The session people know of that the wish would move; none when it would be one more.
    pub instead_of: Option<TimeWord>,
    /// The session people know of that an offer would move.
    pub offers_instead_of: Option<TimeWord>,
    /// True when the practitioner may overrule it by name and with a reason.
    pub can_be_overruled: bool,
    /// What else must be said.
    pub remarks: Vec<String>,
}

/// Something better.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OfferWord {
    /// What kind of offer.
    pub kind: &'static str,
    /// In words.
    pub words: String,
    /// When and where.
    #[serde(flatten)]
    pub at: TimeWord,
}

/// A time that a group cannot have.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RefusedWord {
    /// Group.
    pub group: String,
    /// When and where.
    #[serde(flatten)]
    pub at: TimeWord,
    /// Every reason.
    pub reasons: Vec<WhyWord>,
}

/// One reason.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct WhyWord {
    /// Code of the requirement; none for what lies outside the question.
    pub requirement: Option<&'static str>,
    /// In words.
    pub why: String,
}
