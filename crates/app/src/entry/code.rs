//! One-time codes: an invitation, a recovery, and the pairing of a deck device.

use std::net::IpAddr;

use door::Stamp;
use door::code::{Code, CodeHash, Kept, MOST_TRIES, Purpose, Verdict};
use door::limit::{Decision, address_buckets, buckets, login_key};
use door::password::PasswordHash;
use door::permit::{About, Thing, may_give, needs_confirming};
use door::principal::{AccountId, DeviceId, Principal, Via};
use door::token::Token;
use store::CodeRow;
use uuid::Uuid;

use super::audit::Act;
use super::sign_in::SignedIn;
use super::{audit, problem, stamp};
use crate::desk::Desk;
use crate::error::{AppError, ErrorKind};
use crate::moment::Moment;

/// A code to be kept: made at the edge, with a random id that salts it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewCode {
    /// Id.
    pub id: Uuid,
    /// The code itself; it is shown once and never kept.
    pub code: Code,
}

/// A paired deck device.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Device {
    /// Id.
    pub id: DeviceId,
    /// What people call it.
    pub label: String,
    /// Who paired it; none for the laptop's command line.
    pub paired_by: Option<AccountId>,
    /// When it was paired.
    pub paired: Stamp,
    /// Last use.
    pub seen: Stamp,
    /// When the pairing was ended.
    pub ended: Option<Stamp>,
}

impl NewCode {
    pub(crate) fn row(&self, purpose: Purpose, account: Option<Uuid>, by: &Principal, now: Stamp) -> CodeRow {
        CodeRow {
            id: self.id,
            purpose: purpose.word().to_owned(),
            account,
            made_by: match by.via {
                Via::Account(id) => Some(id.0),
                Via::Device(_) | Via::Laptop => None,
            },
            hash: self.code.hash(&self.id.into_bytes()).0,
            ends: now.after(purpose.lifetime()).0,
            wrong: 0,
        }
    }
}

impl Desk {
    /// A new invitation for an account, in the place of an earlier one: for somebody who let it run out, or forgot the
    /// password. The account's sessions end only when it is taken up.
    pub fn invite_again(
        &mut self,
        moment: &Moment,
        by: &Principal,
        id: AccountId,
        code: &NewCode,
    ) -> Result<(), AppError> {
        self.may(by, Thing::ManageAccounts, About::Everybody, moment.today)?;
        let role = self.account(id)?.role;
        if !may_give(by.role, role) {
            return Err(AppError::new(ErrorKind::Refused, "denied-give-role"));
        }
        // Whoever may not see what the account sees could take it over by inviting himself.
        let confirmed = !needs_confirming(by.role, role);
        self.change_account(moment, by, id, Act::Invited, |row| row.confirmed &= confirmed)?;
        let row = code.row(Purpose::Invitation, Some(id.0), by, stamp(moment));
        self.store_mut().at_door(|door| door.put_code(&row))?;
        Ok(())
    }

    /// A recovery code for an account. For the laptop's own command line: whoever can run it there holds the file.
    pub fn make_recovery(
        &mut self,
        moment: &Moment,
        login: &str,
        code: &NewCode,
    ) -> Result<AccountId, AppError> {
        let found = self.store().account_by_login(&login_key(login))?;
        let row = found.ok_or_else(|| AppError::new(ErrorKind::NotFound, "door-no-account"))?;
        let laptop = Principal::laptop("");
        let entry = audit::by(moment, &laptop, Act::MadeRecovery, Some(Thing::Accounts)).item(row.id);
        let code = code.row(Purpose::Recovery, Some(row.id), &laptop, stamp(moment));
        self.store_mut().at_door(|door| {
            door.put_code(&code)?;
            door.audit(&entry.into())
        })?;
        Ok(AccountId(row.id))
    }

    /// Sets a password with an invitation or a recovery code. One answer for a wrong name, a wrong code and one that
    /// has ended. None of an account that still waits for an owner's word: its password is set, nobody is in yet.
    pub fn take_code(
        &mut self,
        moment: &Moment,
        purpose: Purpose,
        typed: &Typed<'_>,
        new: &PasswordHash,
        token: Token,
    ) -> Result<Option<SignedIn>, AppError> {
        let now = stamp(moment);
        let counted = buckets(typed.login, typed.from);
        if let Decision::Locked { until } = self.count_try(&counted, now)? {
            return Err(problem::locked(until, &self.zone()));
        }
        let account = self.store().account_by_login(&login_key(typed.login))?.map(|row| row.id);
        // A pairing has no account; without an account there is no code to compare.
        let row = match account {
            Some(id) if purpose != Purpose::Pairing => self.store().code(purpose.word(), Some(id))?,
            _ => None,
        };
        self.judge_code(moment, row.as_ref(), typed.code)?;
        let id = account.map(AccountId).ok_or_else(problem::wrong_code)?;
        self.forgive(&counted, now)?;
        let who = self.account(id)?.principal();
        self.store_mut().at_door(|door| door.drop_code(purpose.word(), Some(id.0)))?;
        self.put_password(moment, &who, id, new, &token, Act::SetPassword)?;
        let account = self.account(id)?;
        Ok(account.is_open().then(|| SignedIn { account: id, who: account.principal(), token }))
    }

    /// Whether a recovery code of this account is open for tries.
    pub fn has_recovery(&self, moment: &Moment, login: &str) -> Result<bool, AppError> {
        let Some(account) = self.store().account_by_login(&login_key(login))? else { return Ok(false) };
        let row = self.store().code(Purpose::Recovery.word(), Some(account.id))?;
        Ok(row.is_some_and(|row| moment.unix_millis < row.ends && row.wrong < MOST_TRIES))
    }

    /// Opens the pairing of a deck device: the code is shown on the laptop for five minutes.
    pub fn open_pairing(
        &mut self,
        moment: &Moment,
        by: &Principal,
        code: &NewCode,
    ) -> Result<Stamp, AppError> {
        self.may(by, Thing::PairDevice, About::Everybody, moment.today)?;
        let row = code.row(Purpose::Pairing, None, by, stamp(moment));
        let entry = audit::by(moment, by, Act::OpenedPairing, Some(Thing::PairDevice));
        self.store_mut().at_door(|door| {
            door.put_code(&row)?;
            door.audit(&entry.into())
        })?;
        Ok(Stamp(row.ends))
    }

    /// Pairs the device that the right code was typed on. It becomes a supervisor's, whoever opened the pairing.
    pub fn pair(
        &mut self,
        moment: &Moment,
        typed: &str,
        label: &str,
        from: IpAddr,
        (id, token): (Uuid, &Token),
    ) -> Result<Principal, AppError> {
        let now = stamp(moment);
        let counted = address_buckets(from);
        if let Decision::Locked { until } = self.count_try(&counted, now)? {
            return Err(problem::locked(until, &self.zone()));
        }
        let label = label.trim();
        if label.is_empty() || 60 < label.chars().count() {
            return Err(AppError::new(ErrorKind::Input, "door-label-shape"));
        }
        let row = self.store().code(Purpose::Pairing.word(), None)?;
        self.judge_code(moment, row.as_ref(), typed)?;
        let paired_by = row.and_then(|row| row.made_by);
        let who = Principal::device(DeviceId(id), label);
        let entry = audit::by(moment, &who, Act::Paired, Some(Thing::PairDevice)).item(id);
        self.store_mut().at_door(|door| {
            door.drop_code(Purpose::Pairing.word(), None)?;
            door.insert_device(id, &token.hash().0, label, paired_by, now.0)?;
            door.audit(&entry.into())
        })?;
        self.forgive(&counted, now)?;
        Ok(who)
    }

    /// Every device ever paired, in order of pairing.
    pub fn devices(&self) -> Result<Vec<Device>, AppError> {
        let rows = self.store().devices()?;
        Ok(rows
            .into_iter()
            .map(|row| Device {
                id: DeviceId(row.id),
                label: row.label,
                paired_by: row.paired_by.map(AccountId),
                paired: Stamp(row.began),
                seen: Stamp(row.seen),
                ended: row.ended.map(Stamp),
            })
            .collect())
    }

    /// Ends a pairing: a lost phone is locked out at its next request.
    pub fn end_device(&mut self, moment: &Moment, by: &Principal, id: DeviceId) -> Result<(), AppError> {
        self.may(by, Thing::EndDevice, About::Everybody, moment.today)?;
        let entry = audit::by(moment, by, Act::EndedPairing, Some(Thing::EndDevice)).item(id.0);
        let now = moment.unix_millis;
        let ended = self.store_mut().at_door(|door| match door.end_device(id.0, now)? {
            true => door.audit(&entry.into()).map(|()| true),
            false => Ok(false),
        })?;
        if ended { Ok(()) } else { Err(AppError::new(ErrorKind::NotFound, "door-no-device")) }
    }

    /// Compares a typed code and writes a wrong try down; after the last one the code is gone.
    fn judge_code(&mut self, moment: &Moment, row: Option<&CodeRow>, typed: &str) -> Result<(), AppError> {
        let Some(row) = row else { return Err(problem::wrong_code()) };
        let kept = Kept {
            salt: row.id.into_bytes(),
            hash: CodeHash(row.hash),
            ends: Stamp(row.ends),
            wrong: row.wrong,
        };
        match kept.judge(typed, stamp(moment)) {
            Verdict::Right => Ok(()),
            Verdict::Ended => Err(problem::wrong_code()),
            Verdict::Wrong { left } => {
                let mut entry = audit::nobody(moment, Act::RefusedCode);
                entry.item = row.account;
                let spent = (left == 0).then(|| audit::Entry { act: Act::SpentCode, ..entry.clone() });
                self.store_mut().at_door(|door| {
                    door.wrong_code(row.id)?;
                    door.audit(&entry.into())?;
                    spent.map_or(Ok(()), |spent| door.audit(&spent.into()))
                })?;
                Err(problem::wrong_code())
            }
        }
    }
}

/// What somebody typed, and from where.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Typed<'a> {
    /// Login name.
    pub login: &'a str,
    /// Code.
    pub code: &'a str,
    /// Address.
    pub from: IpAddr,
}

/// Wrong tries that end a code, for the page that asks for it.
pub const TRIES: u8 = MOST_TRIES;
