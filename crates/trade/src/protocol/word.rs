//! The words by which protocol files name groups, arms, loads, counting and marks of evidence.

use super::{Arms, Counting, Evidence, Group, Loads};

impl Evidence {
    /// The words used in protocol files, without the source.
    pub const MARKS: [&'static str; 5] =
        ["published", "from memory", "core practice", "common practice", "computed"];

    /// The mark as it is written in protocol files.
    pub const fn mark(&self) -> &'static str {
        match self {
            Evidence::Published(_) => Self::MARKS[0],
            Evidence::FromMemory => Self::MARKS[1],
            Evidence::CorePractice => Self::MARKS[2],
            Evidence::CommonPractice => Self::MARKS[3],
            Evidence::Computed => Self::MARKS[4],
        }
    }
}

impl Group {
    /// Every value.
    pub const ALL: [Group; 5] = [Group::Cuff, Group::Scapula, Group::Trunk, Group::Mobility, Group::Balance];

    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            Group::Cuff => "cuff",
            Group::Scapula => "scapula",
            Group::Trunk => "trunk",
            Group::Mobility => "mobility",
            Group::Balance => "balance",
        }
    }
}

impl Arms {
    /// Every value.
    pub const ALL: [Arms; 3] = [Arms::One, Arms::Both, Arms::Midline];

    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            Arms::One => "one",
            Arms::Both => "both",
            Arms::Midline => "midline",
        }
    }
}

impl Loads {
    /// Every value.
    pub const ALL: [Loads; 3] = [Loads::WorkingShoulder, Loads::BothShoulders, Loads::NoShoulder];

    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            Loads::WorkingShoulder => "working-shoulder",
            Loads::BothShoulders => "both-shoulders",
            Loads::NoShoulder => "no-shoulder",
        }
    }
}

impl Counting {
    /// Every value.
    pub const ALL: [Counting; 2] = [Counting::Timed, Counting::Plain];

    /// The word used in protocol files.
    pub const fn word(self) -> &'static str {
        match self {
            Counting::Timed => "timed",
            Counting::Plain => "plain",
        }
    }
}
