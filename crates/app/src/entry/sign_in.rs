//! Signing in by name and password, in three steps: counted before it is looked at, checked beside the lock, and only
//! then let in.

use std::net::IpAddr;

use door::limit::{Counted, Decision, Limit, REMEMBERED, buckets, decide, login_key, of_account, strictest};
use door::password::{PasswordHash, is_right};
use door::permit::{About, Thing};
use door::principal::{AccountId, Principal};
use door::token::Token;
use door::{Stamp, session};
use uuid::Uuid;

use super::audit::Act;
use super::{audit, problem, stamp};
use crate::desk::Desk;
use crate::error::{AppError, ErrorKind};
use crate::moment::Moment;

/// A try that has been counted and not yet looked at.
#[derive(Debug)]
pub struct TryIn {
    account: Option<(Uuid, PasswordHash)>,
    counted: Vec<Counted>,
    at: Stamp,
    /// Tries left after this one.
    pub left: usize,
}

/// What a try has come to.
#[derive(Debug)]
pub enum Begun {
    /// It may be checked.
    Try(TryIn),
    /// Not before this instant, right or wrong.
    Locked {
        /// When the door opens again.
        until: Stamp,
    },
}

/// A try whose password has been compared.
#[derive(Debug)]
pub struct Checked {
    account: Option<(Uuid, PasswordHash)>,
    counted: Vec<Counted>,
    at: Stamp,
    left: usize,
    right: bool,
}

/// Somebody has come in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignedIn {
    /// By which account.
    pub account: AccountId,
    /// Who.
    pub who: Principal,
    /// The token for the cookie: new at every sign-in, so that one planted before is worth nothing.
    pub token: Token,
}

impl TryIn {
    /// Compares the password. Slow on purpose, and as slow for a name that nobody has: call it without any lock.
    pub fn check(self, password: &str) -> Checked {
        let right = is_right(self.account.as_ref().map(|(_, kept)| kept), password);
        Checked { account: self.account, counted: self.counted, at: self.at, left: self.left, right }
    }
}

impl Desk {
    /// Counts a try, or says until when the door is locked for it. Nothing is said of whether there is such a name.
    pub fn begin_sign_in(&mut self, moment: &Moment, login: &str, from: IpAddr) -> Result<Begun, AppError> {
        let at = stamp(moment);
        let counted = buckets(login, from);
        let left = match self.count_try(&counted, at)? {
            Decision::Go { left } => left,
            Decision::Locked { until } => return Ok(Begun::Locked { until }),
        };
        let account = match self.store().account_by_login(&login_key(login))? {
            Some(row) => row.password.map(|kept| (row.id, PasswordHash::from_kept(kept))),
            None => None,
        };
        Ok(Begun::Try(TryIn { account, counted, at, left }))
    }

    /// Lets somebody in whose password was right. `planted` is the token the browser came with, which ends here.
    pub fn finish_sign_in(
        &mut self,
        moment: &Moment,
        checked: Checked,
        planted: Option<&Token>,
        token: Token,
    ) -> Result<SignedIn, AppError> {
        let account = self.settle(moment, checked)?;
        let who = account.principal();
        let entry = audit::by(moment, &who, Act::SignedIn, None);
        let (id, now) = (account.id, moment.unix_millis);
        let oldest = stamp(moment);
        self.store_mut().at_door(|door| {
            if let Some(planted) = planted {
                door.end_session(&planted.hash().0)?;
            }
            let lifetime = session::SESSION;
            door.drop_old_sessions(oldest.before(lifetime.absolute).0, oldest.before(lifetime.idle).0)?;
            door.insert_session(&token.hash().0, id.0, now)?;
            door.audit(&entry.into())
        })?;
        Ok(SignedIn { account: id, who, token })
    }

    /// Opens the door again for one account: for an owner or administrator whose squad somebody has locked out for fun.
    /// Nothing of what was tried before counts any more; the audit keeps it.
    pub fn lift_lock(&mut self, moment: &Moment, by: &Principal, login: &str) -> Result<(), AppError> {
        self.may(by, Thing::ManageAccounts, About::Everybody, moment.today)?;
        let row = self.store().account_by_login(&login_key(login))?;
        let row = row.ok_or_else(|| AppError::new(ErrorKind::NotFound, "door-no-account"))?;
        let entry = audit::by(moment, by, Act::LiftedLock, Some(Thing::Accounts)).item(row.id);
        self.store_mut().at_door(|door| {
            for bucket in of_account(login) {
                door.forget_bucket(&bucket.0)?;
            }
            door.audit(&entry.into())
        })?;
        Ok(())
    }

    /// What a checked password comes to: the account as it stands now, or a refusal that is written down.
    pub(crate) fn settle(
        &mut self,
        moment: &Moment,
        checked: Checked,
    ) -> Result<super::account::Account, AppError> {
        let Checked { account, counted, at, left, right } = checked;
        let id = account.as_ref().map(|(id, _)| *id);
        if let (true, Some((id, kept))) = (right, account)
            // The account as it stands now: it may have been closed, or its password changed, while this was checked.
            && let Some(row) = self.store().account(id)?
            && row.password.as_deref() == Some(kept.as_str())
        {
            let account = self.account_from(row)?;
            if account.is_open() {
                self.forgive(&counted, at)?;
                return Ok(account);
            }
        }
        let mut entry = audit::nobody(moment, Act::RefusedSignIn);
        entry.item = id;
        let locked = (left == 0).then(|| audit::Entry { act: Act::Locked, ..entry.clone() });
        self.store_mut().at_door(|door| {
            door.audit(&entry.into())?;
            locked.map_or(Ok(()), |locked| door.audit(&locked.into()))
        })?;
        Err(problem::wrong_sign_in())
    }

    /// Counts a try under everything it is counted under, unless one of them is full.
    pub(crate) fn count_try(&mut self, counted: &[Counted], at: Stamp) -> Result<Decision, AppError> {
        let mut decisions = Vec::new();
        for one in counted {
            let longest = one.limits.iter().map(|limit: &Limit| limit.within).max();
            let from = longest.map_or(at, |longest| at.before(longest));
            let tries: Vec<Stamp> =
                self.store().tries(&one.bucket.0, from.0)?.into_iter().map(Stamp).collect();
            decisions.push(decide(one.limits, &tries, at));
        }
        let decision = strictest(decisions);
        if let Decision::Go { .. } = decision {
            self.store_mut().at_door(|door| {
                door.forget_old_tries(at.before(REMEMBERED).0)?;
                counted.iter().try_for_each(|one| door.insert_try(&one.bucket.0, at.0))
            })?;
        }
        Ok(decision)
    }

    /// A right password or code takes its own try back, and nothing else: whoever gets in clears no tries of others.
    pub(crate) fn forgive(&mut self, counted: &[Counted], at: Stamp) -> Result<(), AppError> {
        self.store_mut()
            .at_door(|door| counted.iter().try_for_each(|one| door.forget_try(&one.bucket.0, at.0)))?;
        Ok(())
    }
}
