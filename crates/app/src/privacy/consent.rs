//! Withdrawing a consent, as a whole or item by item. It is a correction of the consent on record, so that what was
//! agreed to before stays to be seen, its last day stays what it was, and the gate knows from that moment on.

use door::permit::Thing;
use door::principal::Principal;
use store::{FactId, SubjectId};

use crate::desk::{Desk, Draft};
use crate::entry::audit::Act;
use crate::entry::{audit, author_of};
use crate::error::{AppError, ErrorKind};
use crate::facts::{ConsentFact, ConsentWord, Kind, read_json};
use crate::moment::Moment;

/// What is withdrawn.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Withdrawal {
    /// Everything.
    All,
    /// These items.
    Items(Vec<ConsentWord>),
}

impl Desk {
    /// Withdraws consent today. Everything that any paper on record grants of it ends, whoever signed it.
    pub fn withdraw_consent(
        &mut self,
        moment: &Moment,
        who: &Principal,
        subject: SubjectId,
        what: &Withdrawal,
    ) -> Result<Vec<FactId>, AppError> {
        self.may_about(who, Thing::WithdrawConsent, subject, moment.today)?;
        let reason = self.texts().word("privacy-withdrawn");
        let mut drafts = Vec::new();
        for live in self.store().live_facts(subject)? {
            if Kind::from_word(&live.fact.told.kind) != Some(Kind::Consent) {
                continue;
            }
            let consent: ConsentFact =
                read_json(live.payload()).map_err(|problem| AppError::problems(vec![problem]))?;
            if let Some(changed) = without(&consent, what, moment) {
                drafts.push(Draft::new(&changed).correcting(live.fact.told.id, &reason));
            }
        }
        if drafts.is_empty() {
            return Err(AppError::new(ErrorKind::Refused, "privacy-nothing-to-withdraw"));
        }
        let ids = self.record(moment, &author_of(who), subject, &drafts)?;
        let entry = audit::by(moment, who, Act::Withdrew, Some(Thing::WithdrawConsent)).about(subject);
        self.store_mut().at_door(|door| {
            ids.iter().try_for_each(|id| door.audit(&entry.clone().item(id.uuid()).into()))
        })?;
        Ok(ids)
    }
}

/// The consent without what is withdrawn; none if it grants none of it.
fn without(consent: &ConsentFact, what: &Withdrawal, moment: &Moment) -> Option<ConsentFact> {
    if consent.withdrawn.is_some() {
        return None;
    }
    let mut changed = consent.clone();
    match what {
        Withdrawal::All => changed.withdrawn = Some(moment.today),
        Withdrawal::Items(items) => changed.granted.retain(|item| !items.contains(item)),
    }
    (changed != *consent).then_some(changed)
}
