//! Erasing one person. It cannot be undone, so it takes an owner, the person's name typed once more, and one of four
//! grounds: what stays of the act must say nothing of the person.

use door::permit::Thing;
use door::principal::Principal;
use store::{Erasure, SubjectId};

use crate::desk::Desk;
use crate::entry::audit::Act;
use crate::entry::{audit, author_of};
use crate::error::{AppError, ErrorKind};
use crate::import::subject_id;
use crate::moment::Moment;

/// Why somebody is erased.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ground {
    /// The person asked.
    Person,
    /// A guardian asked.
    Guardian,
    /// The time for which the club keeps records has passed.
    Retention,
    /// Entered by mistake.
    Mistake,
}

impl Ground {
    /// Every ground.
    pub const ALL: [Ground; 4] = [Ground::Person, Ground::Guardian, Ground::Retention, Ground::Mistake];

    /// The word that stays in the act.
    pub const fn word(self) -> &'static str {
        match self {
            Ground::Person => "person-asked",
            Ground::Guardian => "guardian-asked",
            Ground::Retention => "retention-ended",
            Ground::Mistake => "entered-by-mistake",
        }
    }

    /// Reads the word.
    pub fn from_word(word: &str) -> Option<Ground> {
        Ground::ALL.into_iter().find(|ground| ground.word() == word)
    }
}

/// What an erasure did.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Erased {
    /// Facts of which only a tombstone is left.
    pub facts: usize,
    /// Accounts that were closed.
    pub accounts: usize,
    /// The file was rewritten, so that not even freed pages hold the text. If not, it is tried again at the next
    /// erasure or by `verify`.
    pub scrubbed: bool,
}

impl Desk {
    /// Erases one person. Backups, archives and papers made before still hold the record; the page says so.
    pub fn erase_person(
        &mut self,
        moment: &Moment,
        who: &Principal,
        subject: SubjectId,
        typed_name: &str,
        ground: Ground,
    ) -> Result<Erased, AppError> {
        self.may_about(who, Thing::Erase, subject, moment.today)?;
        let name = self.person(subject)?.read.swimmer.name.trim();
        if typed_name.trim() != name {
            return Err(AppError::new(ErrorKind::Input, "privacy-erase-name").hint("privacy-erase-name-hint"));
        }
        let act = Erasure {
            subject,
            author: author_of(who).name,
            at: moment.stamp.clone(),
            ground: ground.word().to_owned(),
        };
        let entry = audit::by(moment, who, Act::Erased, Some(Thing::Erase)).about(subject);
        // Under which id the club's own list would bring the same person in again: that one is shut first, so that no
        // fault in between leaves the way open.
        if let Some(listed) = self.listed_as(subject)?.filter(|listed| *listed != subject) {
            self.store_mut().erase_subject(&Erasure { subject: listed, ..act.clone() })?;
        }
        let report = self.store_mut().erase_subject(&act)?;
        self.store_mut().at_door(|door| door.audit(&entry.into()))?;
        self.read_anew()?;
        Ok(Erased { facts: report.facts, accounts: report.accounts, scrubbed: report.scrubbed })
    }

    /// The id that an import makes of this person's line in the club's list; none where the club itself is not on
    /// record yet, and so nothing can be imported.
    fn listed_as(&self, subject: SubjectId) -> Result<Option<SubjectId>, AppError> {
        if self.club().about.is_none() {
            return Ok(None);
        }
        let swimmer = &self.person(subject)?.read.swimmer;
        let number = swimmer.club_number.as_deref();
        Ok(Some(subject_id(self.namespace()?, number, &swimmer.name, swimmer.born)))
    }
}
