//! Accounts: the first owner, then whoever the owner or an administrator lets in.

use std::collections::BTreeMap;

use door::Stamp;
use door::limit::login_key;
use door::password::PasswordHash;
use door::permit::{About, Thing, may_give, needs_confirming};
use door::principal::{AccountId, Binding, Principal, Via};
use door::role::{Licence, Role};
use jiff::civil::Date;
use store::{AccountRow, BindingRow, SubjectId};
use uuid::Uuid;

use super::audit::Act;
use super::code::NewCode;
use super::{audit, stamp};
use crate::desk::Desk;
use crate::error::{AppError, ErrorKind};
use crate::moment::Moment;

/// An account as people see it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// Id.
    pub id: AccountId,
    /// Role.
    pub role: Role,
    /// Name; blank once its person has been erased.
    pub name: String,
    /// Login; none once closed.
    pub login: Option<String>,
    /// Licence, if any is recorded.
    pub licence: Option<Licence>,
    /// An owner has confirmed it, where that is needed.
    pub confirmed: bool,
    /// A password has been set.
    pub has_password: bool,
    /// When it was made.
    pub made: Stamp,
    /// When it was closed.
    pub closed: Option<Stamp>,
    /// Swimmers it is bound to.
    pub bound: BTreeMap<SubjectId, Binding>,
}

/// An account to be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewAccount {
    /// Role.
    pub role: Role,
    /// Login, as typed.
    pub login: String,
    /// Name.
    pub name: String,
    /// Licence.
    pub licence: Option<Licence>,
    /// Swimmers it is bound to: one for a swimmer, one or more for a guardian, none for all others.
    pub bound: BTreeMap<SubjectId, Binding>,
}

impl Account {
    /// Somebody can come in by it.
    pub fn is_open(&self) -> bool {
        self.closed.is_none() && self.confirmed && self.has_password
    }

    /// The person behind it.
    pub fn principal(&self) -> Principal {
        Principal {
            via: Via::Account(self.id),
            name: self.name.clone(),
            role: self.role,
            licence: self.licence.clone(),
            bound: self
                .bound
                .iter()
                .map(|(subject, binding)| (super::subject_of(*subject), *binding))
                .collect(),
        }
    }
}

impl Desk {
    /// Every account ever made.
    pub fn accounts(&self) -> Result<Vec<Account>, AppError> {
        self.store().accounts()?.into_iter().map(|row| self.account_from(row)).collect()
    }

    /// One account.
    pub fn account(&self, id: AccountId) -> Result<Account, AppError> {
        match self.store().account(id.0)? {
            Some(row) => self.account_from(row),
            None => Err(AppError::new(ErrorKind::NotFound, "door-no-account")),
        }
    }

    /// How many accounts somebody can come in by: what [`door::listen::may_listen`] asks for.
    pub fn open_accounts(&self) -> Result<usize, AppError> {
        Ok(self.accounts()?.iter().filter(|account| account.is_open()).count())
    }

    /// Nobody has an account yet: the first run makes the owner's.
    pub fn is_first_run(&self) -> Result<bool, AppError> {
        Ok(self.store().accounts()?.is_empty())
    }

    pub(crate) fn account_from(&self, row: AccountRow) -> Result<Account, AppError> {
        let damaged = |what: &str| {
            AppError::new(ErrorKind::Storage, "error-storage").with("detail", what).hint("error-storage-hint")
        };
        let role = Role::from_word(&row.role).ok_or_else(|| damaged("an account of an unknown role"))?;
        let licence = match row.licence {
            None => None,
            Some((number, until)) => {
                let until: Date = until.parse().map_err(|_| damaged("a licence without a date"))?;
                Some(Licence { number, until })
            }
        };
        let bound = self.store().bindings_of_account(row.id)?;
        Ok(Account {
            id: AccountId(row.id),
            role,
            name: row.name,
            login: row.login,
            licence,
            confirmed: row.confirmed,
            has_password: row.password.is_some(),
            made: Stamp(row.created),
            closed: row.closed.map(Stamp),
            bound: bound.iter().map(|row| (row.subject, Binding { history: row.history })).collect(),
        })
    }

    /// The first account of all: the owner's. Refused as soon as there is any. The edge offers it on the laptop only.
    pub fn make_owner(
        &mut self,
        moment: &Moment,
        id: Uuid,
        new: &NewAccount,
        password: &PasswordHash,
    ) -> Result<AccountId, AppError> {
        if !self.is_first_run()? {
            return Err(AppError::new(ErrorKind::Refused, "door-not-first"));
        }
        let new = NewAccount { role: Role::Owner, bound: BTreeMap::new(), ..new.clone() };
        self.check_new(&new)?;
        let row =
            AccountRow { password: Some(password.as_str().to_owned()), ..row_of(id, &new, moment, true) };
        let entry =
            audit::by(moment, &Principal::laptop(""), Act::MadeAccount, Some(Thing::Accounts)).item(id);
        self.store_mut().at_door(|door| {
            door.insert_account(&row)?;
            door.audit(&entry.into())
        })?;
        Ok(AccountId(id))
    }

    /// Makes an account without a password, with an invitation to set one.
    pub fn make_account(
        &mut self,
        moment: &Moment,
        by: &Principal,
        id: Uuid,
        new: &NewAccount,
        code: &NewCode,
    ) -> Result<AccountId, AppError> {
        self.may(by, Thing::ManageAccounts, About::Everybody, moment.today)?;
        if !may_give(by.role, new.role) {
            return Err(AppError::new(ErrorKind::Refused, "denied-give-role"));
        }
        if new.licence.is_some() && by.role != Role::Owner {
            return Err(AppError::new(ErrorKind::Refused, "denied-give-licence"));
        }
        self.check_new(new)?;
        let row = row_of(id, new, moment, !needs_confirming(by.role, new.role));
        let entry = audit::by(moment, by, Act::MadeAccount, Some(Thing::Accounts)).item(id);
        let code = code.row(door::code::Purpose::Invitation, Some(id), by, stamp(moment));
        let bound = new.bound.clone();
        self.store_mut().at_door(|door| {
            door.insert_account(&row)?;
            for (subject, binding) in bound {
                door.bind(id, BindingRow { subject, history: binding.history })?;
            }
            door.put_code(&code)?;
            door.audit(&entry.into())
        })?;
        Ok(AccountId(id))
    }

    /// Lets people in by an account that somebody made who may not see what it sees.
    pub fn confirm_account(
        &mut self,
        moment: &Moment,
        by: &Principal,
        id: AccountId,
    ) -> Result<(), AppError> {
        self.owner_only(by)?;
        self.change_account(moment, by, id, Act::ConfirmedAccount, |row| row.confirmed = true)
    }

    /// Records a licence, or that there is none.
    pub fn set_licence(
        &mut self,
        moment: &Moment,
        by: &Principal,
        id: AccountId,
        licence: Option<&Licence>,
    ) -> Result<(), AppError> {
        self.owner_only(by)?;
        let licence = licence.map(|licence| (licence.number.trim().to_owned(), licence.until.to_string()));
        self.change_account(moment, by, id, Act::ChangedLicence, |row| row.licence = licence)
    }

    /// Binds a swimmer's or guardian's account to these swimmers and no others.
    pub fn set_bound(
        &mut self,
        moment: &Moment,
        by: &Principal,
        id: AccountId,
        bound: &BTreeMap<SubjectId, Binding>,
    ) -> Result<(), AppError> {
        // Whom an account may see is decided by somebody who may see all.
        self.owner_only(by)?;
        let account = self.account(id)?;
        self.check_bound(account.role, bound)?;
        let entry = audit::by(moment, by, Act::ChangedAccount, Some(Thing::Accounts)).item(id.0);
        self.store_mut().at_door(|door| {
            for subject in account.bound.keys().filter(|subject| !bound.contains_key(subject)) {
                door.unbind(id.0, *subject)?;
            }
            for (subject, binding) in bound {
                door.bind(id.0, BindingRow { subject: *subject, history: binding.history })?;
            }
            door.audit(&entry.into())
        })?;
        Ok(())
    }

    /// Closes an account for good and ends its sessions. The last open owner stays.
    pub fn close_account(&mut self, moment: &Moment, by: &Principal, id: AccountId) -> Result<(), AppError> {
        self.may(by, Thing::ManageAccounts, About::Everybody, moment.today)?;
        let account = self.account(id)?;
        if !may_give(by.role, account.role) {
            return Err(AppError::new(ErrorKind::Refused, "denied-give-role"));
        }
        let owners = self.accounts()?;
        let others =
            owners.iter().filter(|other| other.role == Role::Owner && other.is_open() && other.id != id);
        if account.role == Role::Owner && others.count() == 0 {
            return Err(AppError::new(ErrorKind::Refused, "door-last-owner").hint("door-last-owner-hint"));
        }
        let entry = audit::by(moment, by, Act::ClosedAccount, Some(Thing::Accounts)).item(id.0);
        let now = moment.unix_millis;
        self.store_mut().at_door(|door| {
            door.close_account(id.0, now)?;
            door.audit(&entry.into())
        })?;
        Ok(())
    }

    pub(crate) fn change_account(
        &mut self,
        moment: &Moment,
        by: &Principal,
        id: AccountId,
        act: Act,
        change: impl FnOnce(&mut AccountRow),
    ) -> Result<(), AppError> {
        let missing = || AppError::new(ErrorKind::NotFound, "door-no-account");
        let mut row = self.store().account(id.0)?.filter(|row| row.closed.is_none()).ok_or_else(missing)?;
        change(&mut row);
        let entry = audit::by(moment, by, act, Some(Thing::Accounts)).item(id.0);
        self.store_mut().at_door(|door| {
            door.update_account(&row)?;
            door.audit(&entry.into())
        })?;
        Ok(())
    }

    fn owner_only(&self, by: &Principal) -> Result<(), AppError> {
        match by.role {
            Role::Owner => Ok(()),
            _ => Err(AppError::new(ErrorKind::Refused, "denied-owner-only")),
        }
    }

    fn check_new(&self, new: &NewAccount) -> Result<(), AppError> {
        let input = |says| Err(AppError::new(ErrorKind::Input, says));
        let login = login_key(&new.login);
        let is_plain =
            |letter: char| letter.is_alphanumeric() || matches!(letter, '.' | '-' | '_' | '@' | '+');
        if login.is_empty() || 64 < login.chars().count() || !login.chars().all(is_plain) {
            return input("door-login-shape");
        }
        if new.name.trim().is_empty() || 120 < new.name.chars().count() {
            return input("door-name-shape");
        }
        if new.licence.as_ref().is_some_and(|licence| licence.number.trim().is_empty()) {
            return input("door-licence-number");
        }
        if self.store().account_by_login(&login)?.is_some() {
            return input("door-login-taken");
        }
        self.check_bound(new.role, &new.bound)
    }

    fn check_bound(&self, role: Role, bound: &BTreeMap<SubjectId, Binding>) -> Result<(), AppError> {
        let fits = match role {
            Role::Swimmer => bound.len() == 1,
            Role::Guardian => !bound.is_empty(),
            _ => bound.is_empty(),
        };
        if !fits {
            return Err(AppError::new(ErrorKind::Input, "door-bound-shape"));
        }
        bound.keys().try_for_each(|subject| self.person(*subject).map(drop))
    }
}

fn row_of(id: Uuid, new: &NewAccount, moment: &Moment, confirmed: bool) -> AccountRow {
    let licence =
        new.licence.as_ref().map(|licence| (licence.number.trim().to_owned(), licence.until.to_string()));
    AccountRow {
        id,
        role: new.role.word().to_owned(),
        created: moment.unix_millis,
        login: Some(login_key(&new.login)),
        name: new.name.trim().to_owned(),
        password: None,
        licence,
        confirmed,
        closed: None,
    }
}
