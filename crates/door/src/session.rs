//! How long a session or a paired device holds.

use crate::stamp::{Span, Stamp};

/// How long something holds: so long without use, and never longer than so long.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lifetime {
    /// Without use.
    pub idle: Span,
    /// From its beginning, used or not.
    pub absolute: Span,
}

/// A person who signed in: a working day, and an hour away from the desk.
pub const SESSION: Lifetime = Lifetime { idle: Span::hours(1), absolute: Span::hours(12) };
/// A deck device: paired anew each season, or after a month in the drawer.
pub const DEVICE: Lifetime = Lifetime { idle: Span::days(30), absolute: Span::days(300) };
/// Use is written down at most this often, so that reading a page is not always a write.
pub const NOTED_EVERY: Span = Span::minutes(1);

/// When a session or pairing began and was last used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Use {
    /// Began.
    pub began: Stamp,
    /// Last use that was written down.
    pub seen: Stamp,
}

/// How it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// It holds.
    Holds {
        /// The use should be written down now.
        note: bool,
    },
    /// It has ended: not used for too long, or too old.
    Ended,
}

impl Lifetime {
    /// How something used like this stands now. A clock that has been put back never makes it last longer: an instant
    /// before its own beginning ends it.
    pub fn standing(&self, used: Use, now: Stamp) -> Standing {
        let seen = used.seen.max(used.began);
        let ended =
            now < used.began || used.began.after(self.absolute) <= now || seen.after(self.idle) <= now;
        match ended {
            true => Standing::Ended,
            false => Standing::Holds { note: seen.after(NOTED_EVERY) <= now },
        }
    }

    /// The last instant it could hold without further use.
    pub fn ends(&self, used: Use) -> Stamp {
        used.began.after(self.absolute).min(used.seen.after(self.idle))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_ends_by_neglect_and_by_age() {
        let minutes = |count| Stamp(0).after(Span::minutes(count));
        let used = |began, seen| Use { began: minutes(began), seen: minutes(seen) };
        let at = |used, now| SESSION.standing(used, minutes(now));
        assert_eq!(at(used(10, 10), 10), Standing::Holds { note: false });
        assert_eq!(at(used(10, 10), 11), Standing::Holds { note: true });
        assert_eq!(at(used(10, 10), 69), Standing::Holds { note: true });
        assert_eq!(at(used(10, 10), 70), Standing::Ended);
        assert_eq!(at(used(0, 719), 719), Standing::Holds { note: false });
        assert_eq!(at(used(0, 719), 720), Standing::Ended);
        assert_eq!(at(used(10, 10), 9), Standing::Ended, "the clock was put back");
        assert_eq!(SESSION.ends(used(0, 700)), minutes(720));
    }
}
