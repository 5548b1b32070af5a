//! Which shoulder, and which side an exercise works.

/// One shoulder: the unit of record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The left shoulder.
    Left,
    /// The right shoulder.
    Right,
}

impl Side {
    /// Both shoulders, left first.
    pub const BOTH: [Side; 2] = [Side::Left, Side::Right];

    /// The other shoulder.
    pub const fn other(self) -> Side {
        match self {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        }
    }

    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            Side::Left => "left",
            Side::Right => "right",
        }
    }
}

/// The side a set works. A one-arm exercise has a left and a right line of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WorkingSide {
    /// The left arm or the left side of the body.
    Left,
    /// The right arm or the right side of the body.
    Right,
    /// Both arms together.
    Both,
    /// The trunk; no arm works.
    Midline,
}

impl WorkingSide {
    /// The word used in files and records.
    pub const fn word(self) -> &'static str {
        match self {
            WorkingSide::Left => "left",
            WorkingSide::Right => "right",
            WorkingSide::Both => "both",
            WorkingSide::Midline => "midline",
        }
    }

    /// Reads the word used in files and records.
    pub fn from_word(word: &str) -> Option<WorkingSide> {
        [WorkingSide::Left, WorkingSide::Right, WorkingSide::Both, WorkingSide::Midline]
            .into_iter()
            .find(|side| side.word() == word)
    }

    /// The mirror image; both and midline are their own.
    pub const fn mirrored(self) -> WorkingSide {
        match self {
            WorkingSide::Left => WorkingSide::Right,
            WorkingSide::Right => WorkingSide::Left,
            same => same,
        }
    }

    /// The one shoulder this side is, if it is one.
    pub const fn shoulder(self) -> Option<Side> {
        match self {
            WorkingSide::Left => Some(Side::Left),
            WorkingSide::Right => Some(Side::Right),
            WorkingSide::Both | WorkingSide::Midline => None,
        }
    }
}

impl From<Side> for WorkingSide {
    fn from(side: Side) -> Self {
        match side {
            Side::Left => WorkingSide::Left,
            Side::Right => WorkingSide::Right,
        }
    }
}
