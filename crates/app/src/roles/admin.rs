//! What the club's administrator sees: roster, papers and accounts, no clinical content.

use serde::Serialize;

use super::called;
use crate::desk::{Desk, Person};
use crate::error::AppError;
use crate::facts::ContactFact;

/// One swimmer as the administrator sees them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AdminView {
    /// Random id.
    pub subject: String,
    /// Full name.
    pub full_name: String,
    /// What the swimmer is called.
    pub name: String,
    /// Squad.
    pub squad: String,
    /// Date of birth.
    pub born: String,
    /// Number in the club's own list.
    pub club_number: Option<String>,
    /// Day the swimmer left.
    pub left: Option<String>,
    /// Guardians and others to ring.
    pub contacts: Vec<ContactFact>,
    /// Consents, newest first.
    pub consents: Vec<ConsentLine>,
    /// Accounts that are bound to this swimmer.
    pub accounts: Vec<AccountLine>,
}

/// One consent: which paper, not what it is about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConsentLine {
    /// Day signed.
    pub signed: String,
    /// Who signed.
    pub signer: String,
    /// Relation to the swimmer.
    pub relation: String,
    /// Version of the text.
    pub text_version: String,
    /// Items granted, by their words.
    pub granted: Vec<&'static str>,
    /// Last day it holds, unless withdrawn.
    pub until: String,
    /// Day withdrawn.
    pub withdrawn: Option<String>,
}

/// One account.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AccountLine {
    /// Name.
    pub name: String,
    /// Role, by its word.
    pub role: &'static str,
    /// Somebody can come in by it.
    pub open: bool,
}

impl AdminView {
    /// The view.
    pub fn of(desk: &Desk, person: &Person) -> Result<Self, AppError> {
        let swimmer = &person.read.swimmer;
        let months = desk.protocol().parameters.consent_valid_months;
        let consents = person.read.history.consents.iter().rev().map(|consent| ConsentLine {
            signed: consent.signed.to_string(),
            signer: consent.signer.clone(),
            relation: consent.relation.clone(),
            text_version: consent.text_version.clone(),
            granted: consent.granted.iter().map(|item| item.word()).collect(),
            until: consent.signed.saturating_add(jiff::Span::new().months(i64::from(months))).to_string(),
            withdrawn: consent.withdrawn.map(|day| day.to_string()),
        });
        let accounts =
            desk.accounts()?.into_iter().filter(|account| account.bound.contains_key(&person.subject));
        Ok(Self {
            subject: person.subject.to_string(),
            full_name: swimmer.name.clone(),
            name: called(person),
            squad: swimmer.squad.clone(),
            born: swimmer.born.to_string(),
            club_number: swimmer.club_number.clone(),
            left: swimmer.left.map(|day| day.to_string()),
            contacts: swimmer.contacts.clone(),
            consents: consents.collect(),
            accounts: accounts
                .map(|account| AccountLine {
                    open: account.is_open(),
                    role: account.role.word(),
                    name: account.name,
                })
                .collect(),
        })
    }
}
