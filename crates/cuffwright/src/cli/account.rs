//! `cuffwright account`: who may come in, from the laptop's own command line. Whoever can run it holds the file.

use app::desk::Desk;
use app::entry::{Account, Device};
use clap::Subcommand;
use door::code::Purpose;
use door::principal::{DeviceId, Principal};
use serde::Serialize;

use super::Context;
use super::answer::Answer;
use super::clock;
use super::exit::Exit;
use super::failure::Failure;
use super::open::StoreArgs;
use super::page::Page;
use super::words::{say, word};
use crate::web::pages::door::fresh_code;

/// Looks after accounts and paired devices, on this computer.
///
/// The record file is held by one process at a time: end “serve” first.
#[derive(Debug, clap::Args)]
#[command(arg_required_else_help = true)]
pub(super) struct Args {
    #[command(subcommand)]
    command: Which,
}

#[derive(Debug, Subcommand)]
enum Which {
    List(ListArgs),
    Recover(LoginArgs),
    Revoke(RevokeArgs),
    Unlock(UnlockArgs),
}

/// Lists accounts and paired devices.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "\
JSON: shape cuffwright.accounts/1 with accounts (id, name, login, role, state) and devices (id, label, paired, ended).")]
struct ListArgs {
    #[command(flatten)]
    store: StoreArgs,
}

/// Makes a recovery code for whoever forgot the password. It works once, for a quarter of an hour.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.recovery/1 with login, code, minutes.")]
struct LoginArgs {
    #[command(flatten)]
    store: StoreArgs,
    /// The login name.
    #[arg(value_name = "LOGIN")]
    login: String,
}

/// Closes an account for good, or ends the pairing of a device.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.revoked/1 with kind (account or device) and what.")]
struct RevokeArgs {
    #[command(flatten)]
    store: StoreArgs,
    /// The login name of an account, or the name or id of a device.
    #[arg(value_name = "WHAT")]
    what: String,
}

/// Opens the door again for an account that too many wrong tries have locked.
#[derive(Debug, clap::Args)]
#[command(after_long_help = "JSON: shape cuffwright.unlocked/1 with login.")]
struct UnlockArgs {
    #[command(flatten)]
    store: StoreArgs,
    /// The login name.
    #[arg(value_name = "LOGIN")]
    login: String,
}

pub(super) fn run(args: &Args, context: Context) -> Result<Answer, Failure> {
    match &args.command {
        Which::List(args) => list(&args.store.open()?, context),
        Which::Recover(args) => recover(args, context),
        Which::Revoke(args) => revoke(args, context),
        Which::Unlock(args) => unlock(args, context),
    }
}

#[derive(Serialize)]
struct Listed {
    shape: &'static str,
    accounts: Vec<AccountLine>,
    devices: Vec<DeviceLine>,
}

#[derive(Serialize)]
struct AccountLine {
    id: String,
    name: String,
    login: Option<String>,
    role: &'static str,
    state: &'static str,
}

#[derive(Serialize)]
struct DeviceLine {
    id: String,
    label: String,
    paired: u64,
    ended: bool,
}

fn state(account: &Account) -> &'static str {
    match (account.closed.is_some(), account.has_password, account.confirmed) {
        (true, ..) => "closed",
        (_, false, _) => "invited",
        (_, _, false) => "waits",
        _ => "open",
    }
}

fn list(desk: &Desk, context: Context) -> Result<Answer, Failure> {
    let (accounts, devices) = (desk.accounts()?, desk.devices()?);
    let listed = Listed {
        shape: "cuffwright.accounts/1",
        accounts: accounts
            .iter()
            .map(|account| AccountLine {
                id: account.id.0.to_string(),
                name: account.name.clone(),
                login: account.login.clone(),
                role: account.role.word(),
                state: state(account),
            })
            .collect(),
        devices: devices
            .iter()
            .map(|device| DeviceLine {
                id: device.id.0.to_string(),
                label: device.label.clone(),
                paired: device.paired.0,
                ended: device.ended.is_some(),
            })
            .collect(),
    };
    if context.json {
        return Ok(Answer::json(Exit::Well, &listed));
    }
    let mut page = Page::default();
    if listed.accounts.is_empty() {
        page.paragraph("", &word("cli-accounts-none"));
    }
    let rows: Vec<Vec<String>> = listed
        .accounts
        .into_iter()
        .map(|line| {
            let role = word(&format!("role-{}", line.role));
            vec![
                line.login.unwrap_or_default(),
                line.name,
                role,
                word(&format!("cli-account-{}", line.state)),
            ]
        })
        .collect();
    page.table(0, &rows);
    let paired: Vec<Vec<String>> = devices
        .iter()
        .filter(|device| device.ended.is_none())
        .map(|device| vec![device.label.clone(), device.id.0.to_string()])
        .collect();
    if !paired.is_empty() {
        page.gap();
        page.heading(&word("cli-account-devices"));
        page.table(2, &paired);
    }
    Ok(Answer::page(Exit::Well, page))
}

fn recover(args: &LoginArgs, context: Context) -> Result<Answer, Failure> {
    #[derive(Serialize)]
    struct Shape {
        shape: &'static str,
        login: String,
        code: String,
        minutes: u64,
    }
    let mut desk = args.store.open()?;
    let moment = clock::moment(&desk, context)?;
    let code = fresh_code(Purpose::Recovery)
        .ok_or_else(|| Failure::new(Exit::Storage, "cli-account-no-chance", &[]))?;
    desk.make_recovery(&moment, &args.login, &code)?;
    let shape = Shape {
        shape: "cuffwright.recovery/1",
        login: args.login.trim().to_lowercase(),
        code: code.code.shown(),
        minutes: Purpose::Recovery.lifetime().0 / 60_000,
    };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.paragraph("", &say("cli-account-recovered", &[("login", shape.login), ("code", shape.code)]));
    let next = [("path", "/invited".to_owned()), ("minutes", shape.minutes.to_string())];
    page.paragraph("", &say("cli-account-recovered-next", &next));
    Ok(Answer::page(Exit::Well, page))
}

fn revoke(args: &RevokeArgs, context: Context) -> Result<Answer, Failure> {
    #[derive(Serialize)]
    struct Shape {
        shape: &'static str,
        kind: &'static str,
        what: String,
    }
    let mut desk = args.store.open()?;
    let moment = clock::moment(&desk, context)?;
    let laptop = Principal::laptop("");
    let sought = args.what.trim().to_lowercase();
    let account = desk
        .accounts()?
        .into_iter()
        .find(|account| account.closed.is_none() && account.login.as_deref() == Some(&sought));
    let (kind, says) = match account {
        Some(account) => {
            desk.close_account(&moment, &laptop, account.id)?;
            ("account", "cli-account-revoked")
        }
        None => {
            let id = device(&desk.devices()?, &sought, &args.what)?;
            desk.end_device(&moment, &laptop, id)?;
            ("device", "cli-account-device-ended")
        }
    };
    let shape = Shape { shape: "cuffwright.revoked/1", kind, what: args.what.trim().to_owned() };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.paragraph("", &say(says, &[("what", shape.what)]));
    Ok(Answer::page(Exit::Well, page))
}

/// The paired device of this name or id.
fn device(devices: &[Device], sought: &str, typed: &str) -> Result<DeviceId, Failure> {
    let is_it = |device: &&Device| {
        device.ended.is_none() && (device.label.to_lowercase() == sought || device.id.0.to_string() == sought)
    };
    let mut found = devices.iter().filter(is_it);
    match (found.next(), found.next()) {
        (Some(device), None) => Ok(device.id),
        (Some(_), Some(_)) => {
            Err(Failure::new(Exit::Input, "cli-account-several", &[("what", typed.trim().to_owned())]))
        }
        (None, _) => Err(Failure::new(Exit::NotFound, "door-no-account", &[])),
    }
}

fn unlock(args: &UnlockArgs, context: Context) -> Result<Answer, Failure> {
    #[derive(Serialize)]
    struct Shape {
        shape: &'static str,
        login: String,
    }
    let mut desk = args.store.open()?;
    let moment = clock::moment(&desk, context)?;
    desk.lift_lock(&moment, &Principal::laptop(""), &args.login)?;
    let shape = Shape { shape: "cuffwright.unlocked/1", login: args.login.trim().to_lowercase() };
    if context.json {
        return Ok(Answer::json(Exit::Well, &shape));
    }
    let mut page = Page::default();
    page.paragraph("", &say("cli-account-unlocked", &[("login", shape.login)]));
    Ok(Answer::page(Exit::Well, page))
}
