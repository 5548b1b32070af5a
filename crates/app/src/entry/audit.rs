//! Who saw and changed what, by person and by record.

use std::collections::BTreeMap;

use door::Stamp;
use door::permit::{About, Thing};
use door::principal::{AccountId, Principal, Via};
use door::role::Role;
use door::stamp::Span;
use store::{AuditRow, NewAudit, SubjectId};
use uuid::Uuid;

use super::via_row;
use crate::desk::Desk;
use crate::error::AppError;
use crate::moment::Moment;

macro_rules! acts {
    ($($(#[$doc:meta])* $variant:ident => $word:literal),* $(,)?) => {
        /// What can be done that the audit remembers. The word stands in its rows and never changes.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Act {
            $($(#[$doc])* $variant,)*
        }

        impl Act {
            /// Every act.
            pub const ALL: &'static [Act] = &[$(Act::$variant),*];

            /// The word in rows, and in the name of its sentence.
            pub const fn word(self) -> &'static str {
                match self { $(Act::$variant => $word),* }
            }
        }
    };
}

acts! {
    /// Looked.
    Saw => "saw",
    /// Recorded a fact.
    Changed => "changed",
    /// Withdrew a consent.
    Withdrew => "withdrew",
    /// Handed out a whole record.
    Archived => "archived",
    /// Erased a person.
    Erased => "erased",
    /// Settled for how long records are kept.
    SetRetention => "set-retention",
    /// Came in.
    SignedIn => "signed-in",
    /// Went out.
    SignedOut => "signed-out",
    /// Ended all own sessions.
    SignedOutEverywhere => "signed-out-everywhere",
    /// Was refused at the door.
    RefusedSignIn => "refused-sign-in",
    /// Locked the door by too many tries.
    Locked => "locked",
    /// Lifted a lock.
    LiftedLock => "lifted-lock",
    /// Typed a wrong code.
    RefusedCode => "refused-code",
    /// Used up a code by wrong tries.
    SpentCode => "spent-code",
    /// Made an account.
    MadeAccount => "made-account",
    /// Let people in by an account.
    ConfirmedAccount => "confirmed-account",
    /// Changed whom an account is bound to.
    ChangedAccount => "changed-account",
    /// Changed a licence.
    ChangedLicence => "changed-licence",
    /// Closed an account.
    ClosedAccount => "closed-account",
    /// Invited anew.
    Invited => "invited",
    /// Made a recovery code.
    MadeRecovery => "made-recovery",
    /// Set a password by a code.
    SetPassword => "set-password",
    /// Changed the password.
    ChangedPassword => "changed-password",
    /// Opened a pairing.
    OpenedPairing => "opened-pairing",
    /// Paired a device.
    Paired => "paired",
    /// Ended a pairing.
    EndedPairing => "ended-pairing",
}

/// Looking at the same again within this time is one look.
const ONE_LOOK: Span = Span::minutes(10);

/// A row about to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Entry {
    pub(crate) at: u64,
    pub(crate) via: store::Via,
    pub(crate) role: Option<Role>,
    pub(crate) act: Act,
    pub(crate) thing: Option<Thing>,
    pub(crate) subject: Option<SubjectId>,
    pub(crate) everybody: bool,
    pub(crate) item: Option<Uuid>,
}

/// A row by somebody.
pub(crate) fn by(moment: &Moment, who: &Principal, act: Act, thing: Option<Thing>) -> Entry {
    Entry { via: via_row(who.via), role: Some(who.role), thing, ..nobody(moment, act) }
}

/// A row by nobody who is known.
pub(crate) fn nobody(moment: &Moment, act: Act) -> Entry {
    Entry {
        at: moment.unix_millis,
        via: store::Via::Nobody,
        role: None,
        act,
        thing: None,
        subject: None,
        everybody: false,
        item: None,
    }
}

impl Entry {
    pub(crate) fn about(self, subject: SubjectId) -> Self {
        Self { subject: Some(subject), ..self }
    }

    pub(crate) fn item(self, item: Uuid) -> Self {
        Self { item: Some(item), ..self }
    }
}

impl From<Entry> for NewAudit {
    fn from(entry: Entry) -> Self {
        NewAudit {
            at: entry.at,
            via: entry.via,
            role: entry.role.map(|role| role.word().to_owned()),
            act: entry.act.word().to_owned(),
            thing: entry.thing.map(|thing| thing.word().to_owned()),
            subject: entry.subject,
            everybody: entry.everybody,
            item: entry.item,
        }
    }
}

/// One row as a person reads it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    /// Place in the audit; the next page begins before the last one shown.
    pub seq: u64,
    /// When.
    pub at: Stamp,
    /// By what.
    pub via: store::Via,
    /// Name of the person or the device; blank for an erased person, for nobody, and for the laptop.
    pub name: String,
    /// As what.
    pub role: Option<Role>,
    /// What was done: a word whose sentence is `act-` and the word.
    pub act: String,
    /// With what kind of thing.
    pub thing: Option<Thing>,
    /// About whom; none for everybody and for nobody in particular.
    pub subject: Option<SubjectId>,
    /// A list of everybody.
    pub everybody: bool,
    /// The fact, account or device.
    pub item: Option<Uuid>,
}

/// Which rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// All of them.
    All,
    /// About one swimmer.
    Record(SubjectId),
    /// By one account.
    Account(AccountId),
}

impl Desk {
    /// Writes down that somebody looked: at one swimmer's record, or, without one, at a list of everybody. What
    /// concerns no swimmer (kit, calendar, rules) is not written down.
    pub fn saw(
        &mut self,
        moment: &Moment,
        who: &Principal,
        thing: Thing,
        subject: Option<SubjectId>,
    ) -> Result<(), AppError> {
        let entry = Entry { subject, everybody: subject.is_none(), ..by(moment, who, Act::Saw, Some(thing)) };
        let entry = NewAudit::from(entry);
        let last = self.store().last_alike(&entry)?;
        let again = last.is_some_and(|last| {
            last <= moment.unix_millis && moment.unix_millis < Stamp(last).after(ONE_LOOK).0
        });
        if !again {
            self.store_mut().at_door(|door| door.audit(&entry))?;
        }
        Ok(())
    }

    /// Writes down that somebody changed what no draft stands for: a decision, an import, a fact taken back.
    pub fn changed(
        &mut self,
        moment: &Moment,
        who: &Principal,
        thing: Thing,
        subjects: &[SubjectId],
    ) -> Result<(), AppError> {
        let entry = by(moment, who, Act::Changed, Some(thing));
        self.store_mut().at_door(|door| {
            if subjects.is_empty() {
                return door.audit(&Entry { everybody: true, ..entry.clone() }.into());
            }
            subjects.iter().try_for_each(|subject| door.audit(&entry.clone().about(*subject).into()))
        })?;
        Ok(())
    }

    /// Rows of the audit, newest first, for somebody who may read them: everything and anybody's acts for an owner,
    /// one record for whoever may see that record's audit, and one's own acts for everybody.
    pub fn audit(
        &self,
        moment: &Moment,
        reader: &Principal,
        of: Of,
        before: Option<u64>,
        most: u32,
    ) -> Result<Vec<Seen>, AppError> {
        let rows = match of {
            Of::All => {
                self.may(reader, Thing::Audit, About::Everybody, moment.today)?;
                self.store().audit_page(before, most)?
            }
            Of::Record(subject) => {
                self.may_about(reader, Thing::AuditOfRecord, subject, moment.today)?;
                self.store().audit_of_subject(subject, before, most)?
            }
            Of::Account(id) => {
                if reader.via != Via::Account(id) {
                    self.may(reader, Thing::Audit, About::Everybody, moment.today)?;
                }
                self.store().audit_of_who(id.0, before, most)?
            }
        };
        let names = self.names_at_the_door()?;
        Ok(rows.into_iter().map(|row| seen(row, &names)).collect())
    }

    fn names_at_the_door(&self) -> Result<BTreeMap<Uuid, String>, AppError> {
        let accounts = self.store().accounts()?.into_iter().map(|row| (row.id, row.name));
        let devices = self.store().devices()?.into_iter().map(|row| (row.id, row.label));
        Ok(accounts.chain(devices).collect())
    }
}

pub(crate) fn seen(row: AuditRow, names: &BTreeMap<Uuid, String>) -> Seen {
    let entry = row.entry;
    Seen {
        seq: row.seq,
        at: Stamp(entry.at),
        via: entry.via,
        name: entry.via.id().and_then(|id| names.get(&id)).cloned().unwrap_or_default(),
        role: entry.role.as_deref().and_then(Role::from_word),
        act: entry.act,
        thing: entry.thing.as_deref().and_then(Thing::from_word),
        subject: entry.subject,
        everybody: entry.everybody,
        item: entry.item,
    }
}
