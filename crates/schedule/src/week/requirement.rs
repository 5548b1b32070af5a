//! What must hold, by name: each requirement can be spoken of, left out to see what it costs, and, rarely, overruled.

/// The kind of a requirement. Where a rule of the trade stands behind it, the doc names it by its part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A group gets its sessions (D.3).
    Sessions,
    /// Hours between the end of dryland and the next water (D.1).
    BeforeWater,
    /// Nobody is in the water and on deck at once.
    InWater,
    /// Never two loaded sessions on one day (D.1).
    OnceADay,
    /// Free calendar days between loaded sessions (D.1).
    FreeDay,
    /// Hours between loaded sessions, end to start (D.1).
    HoursBetween,
    /// Nothing loaded in the last hours before a meet, or during it (D.1, D.5).
    MeetGap,
    /// Fewer sessions around a meet or in a camp (D.5).
    PlannedFewer,
    /// No more sessions a week than the setting (D.3).
    WeekMost,
    /// Another load on the same shoulders counts as a loaded session (D.1).
    OtherLoad,
    /// School and other places to be.
    Elsewhere,
    /// Within the hours at which the deck is ours.
    Window,
    /// Not while the place is closed.
    Closed,
    /// Room for the groups and swimmers at one place.
    Room,
    /// Enough adults for the swimmers (D.10, A.12).
    Supervision,
    /// Enough kit for all who train at once (D.4).
    Kit,
    /// The slot lasts as long as the session.
    Length,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Kind; 17] = [
        Kind::Sessions,
        Kind::BeforeWater,
        Kind::InWater,
        Kind::OnceADay,
        Kind::FreeDay,
        Kind::HoursBetween,
        Kind::MeetGap,
        Kind::PlannedFewer,
        Kind::WeekMost,
        Kind::OtherLoad,
        Kind::Elsewhere,
        Kind::Window,
        Kind::Closed,
        Kind::Room,
        Kind::Supervision,
        Kind::Kit,
        Kind::Length,
    ];

    /// The word in files and in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Kind::Sessions => "sessions",
            Kind::BeforeWater => "before-water",
            Kind::InWater => "in-water",
            Kind::OnceADay => "once-a-day",
            Kind::FreeDay => "free-day",
            Kind::HoursBetween => "hours-between",
            Kind::MeetGap => "meet-gap",
            Kind::PlannedFewer => "planned-fewer",
            Kind::WeekMost => "week-most",
            Kind::OtherLoad => "other-load",
            Kind::Elsewhere => "elsewhere",
            Kind::Window => "window",
            Kind::Closed => "closed",
            Kind::Room => "room",
            Kind::Supervision => "supervision",
            Kind::Kit => "kit",
            Kind::Length => "length",
        }
    }

    /// True where nobody can give way: two places at once, or a rule that is never relaxed.
    pub const fn is_fixed(self) -> bool {
        matches!(self, Kind::InWater | Kind::OnceADay | Kind::Length)
    }

    /// True where the practitioner may overrule one session by name and with a reason. Only the rule about water
    /// has that door (story S12): the others are met by changing the week, not by signing.
    pub const fn can_be_overruled(self) -> bool {
        matches!(self, Kind::BeforeWater)
    }
}

/// Whom or what a requirement is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// Everybody.
    All,
    /// One group.
    Group(usize),
    /// One place.
    Place(usize),
    /// One closure.
    Closure(usize),
    /// One kind of kit.
    Kit(usize),
}

/// One thing that must hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Requirement {
    /// What.
    pub kind: Kind,
    /// About whom.
    pub subject: Subject,
}

impl Requirement {
    /// A requirement about one group.
    pub const fn of_group(kind: Kind, group: usize) -> Self {
        Self { kind, subject: Subject::Group(group) }
    }
}
