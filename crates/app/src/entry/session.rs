//! After signing in: who a token stands for, the way out, and a new password.

use door::Stamp;
use door::password::PasswordHash;
use door::principal::{AccountId, DeviceId, Principal, Via};
use door::session::{DEVICE, SESSION, Standing, Use};
use door::token::Token;
use store::AccountRow;

use super::audit::Act;
use super::sign_in::Checked;
use super::{audit, stamp};
use crate::desk::Desk;
use crate::error::{AppError, ErrorKind};
use crate::moment::Moment;

/// Whom a token stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Known {
    /// Who.
    pub who: Principal,
    /// The use should be noted now, by [`Desk::note_use`].
    pub note: bool,
}

impl Desk {
    /// Whom a token stands for now: none for one that was never handed out, has ended or was revoked, or whose account
    /// is closed.
    pub fn who(&self, moment: &Moment, token: &Token) -> Result<Option<Known>, AppError> {
        let (hash, now) = (token.hash().0, stamp(moment));
        if let Some(row) = self.store().session(&hash)? {
            let used = Use { began: Stamp(row.began), seen: Stamp(row.seen) };
            let account = self.account(AccountId(row.account))?;
            return Ok(match SESSION.standing(used, now) {
                Standing::Holds { note } if account.is_open() => {
                    Some(Known { who: account.principal(), note })
                }
                _ => None,
            });
        }
        let Some(row) = self.store().device_by_token(&hash)? else { return Ok(None) };
        let used = Use { began: Stamp(row.began), seen: Stamp(row.seen) };
        Ok(match DEVICE.standing(used, now) {
            Standing::Holds { note } => {
                Some(Known { who: Principal::device(DeviceId(row.id), &row.label), note })
            }
            Standing::Ended => None,
        })
    }

    /// Notes that a token was used, so that it does not end by neglect.
    pub fn note_use(&mut self, moment: &Moment, known: &Known, token: &Token) -> Result<(), AppError> {
        let now = moment.unix_millis;
        self.store_mut().at_door(|door| match known.who.via {
            Via::Account(_) => door.note_session(&token.hash().0, now),
            Via::Device(id) => door.note_device(id.0, now),
            Via::Laptop => Ok(()),
        })?;
        Ok(())
    }

    /// Ends one session.
    pub fn sign_out(&mut self, moment: &Moment, who: &Principal, token: &Token) -> Result<(), AppError> {
        let entry = audit::by(moment, who, Act::SignedOut, None);
        self.store_mut().at_door(|door| match door.end_session(&token.hash().0)? {
            true => door.audit(&entry.into()),
            false => Ok(()),
        })?;
        Ok(())
    }

    /// Ends every session of one's own account, wherever it is.
    pub fn sign_out_everywhere(&mut self, moment: &Moment, who: &Principal) -> Result<usize, AppError> {
        let Via::Account(id) = who.via else { return Ok(0) };
        let entry = audit::by(moment, who, Act::SignedOutEverywhere, None);
        let ended = self.store_mut().at_door(|door| {
            let ended = door.end_sessions_of(id.0)?;
            door.audit(&entry.into())?;
            Ok(ended)
        })?;
        Ok(ended)
    }

    /// A new password, after the old one was right: by [`Desk::begin_sign_in`] and [`super::TryIn::check`] with one's
    /// own login. Ends every session of the account and begins one anew.
    pub fn change_password(
        &mut self,
        moment: &Moment,
        who: &Principal,
        checked: Checked,
        new: &PasswordHash,
        token: &Token,
    ) -> Result<(), AppError> {
        let account = self.settle(moment, checked)?;
        if who.via != Via::Account(account.id) {
            return Err(AppError::new(ErrorKind::Refused, "denied-not-yours"));
        }
        self.put_password(moment, who, account.id, new, token, Act::ChangedPassword)
    }

    /// Sets a password, ends all sessions of the account and begins one.
    pub(crate) fn put_password(
        &mut self,
        moment: &Moment,
        who: &Principal,
        id: AccountId,
        new: &PasswordHash,
        token: &Token,
        act: Act,
    ) -> Result<(), AppError> {
        let missing = || AppError::new(ErrorKind::NotFound, "door-no-account");
        let row = self.store().account(id.0)?.filter(|row| row.closed.is_none()).ok_or_else(missing)?;
        let row = AccountRow { password: Some(new.as_str().to_owned()), ..row };
        let entry = audit::by(moment, who, act, None).item(id.0);
        let now = moment.unix_millis;
        self.store_mut().at_door(|door| {
            door.update_account(&row)?;
            door.end_sessions_of(id.0)?;
            // An account that waits for an owner's word has a password, and nobody comes in by it yet.
            if row.confirmed {
                door.insert_session(&token.hash().0, id.0, now)?;
            }
            door.audit(&entry.into())
        })?;
        Ok(())
    }
}
