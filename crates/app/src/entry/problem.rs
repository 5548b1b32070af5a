//! Why not, as sentences of the catalogue.

use door::listen::Refusal;
use door::permit::Denied;
use door::policy::{FEWEST, Weakness};
use door::stamp::Stamp;
use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::error::{AppError, ErrorKind};

/// What somebody may not see or do.
pub fn denied(why: Denied) -> AppError {
    let says = match why {
        Denied::Role => "denied-role",
        Denied::NotYours => "denied-not-yours",
        Denied::OfAge => "denied-of-age",
        Denied::NotAgreed => "denied-not-agreed",
        Denied::Licence => "denied-licence",
    };
    AppError::new(ErrorKind::Refused, says)
}

/// True for an error of [`denied`]: the edge answers it with "not allowed" and nothing about the record.
pub fn is_denial(error: &AppError) -> bool {
    error.says.starts_with("denied")
}

/// A password that is not taken.
pub fn weak(weakness: Weakness) -> AppError {
    let says = match weakness {
        Weakness::Short => "door-password-short",
        Weakness::Long => "door-password-long",
        Weakness::Common => "door-password-common",
        Weakness::Personal => "door-password-personal",
        Weakness::Repeats => "door-password-repeats",
    };
    AppError::new(ErrorKind::Input, says).with("fewest", FEWEST).hint("door-password-hint")
}

/// An address that is not served.
pub fn refused_address(refusal: Refusal) -> AppError {
    let (says, hint) = match refusal {
        Refusal::NoAccounts => ("door-listen-no-accounts", "door-listen-no-accounts-hint"),
        Refusal::NoTls => ("door-listen-no-tls", "door-listen-no-tls-hint"),
        Refusal::Public => ("door-listen-public", "door-listen-public-hint"),
    };
    AppError::new(ErrorKind::Refused, says).hint(hint)
}

/// Locked until an instant, told in the club's own time.
pub fn locked(until: Stamp, zone: &TimeZone) -> AppError {
    let instant = i64::try_from(until.0).ok().and_then(|millis| Timestamp::from_millisecond(millis).ok());
    let time = instant.map_or_else(String::new, |instant| {
        let local = zone.to_datetime(instant);
        // Never earlier than the lock: the next whole minute.
        let local = local.saturating_add(jiff::Span::new().minutes(1));
        format!("{:02}:{:02}", local.hour(), local.minute())
    });
    AppError::new(ErrorKind::Refused, "door-locked").with("time", time).hint("door-locked-hint")
}

/// Name or password wrong: one sentence for both, and for a closed or unconfirmed account.
pub fn wrong_sign_in() -> AppError {
    AppError::new(ErrorKind::Refused, "door-wrong").hint("door-wrong-hint")
}

/// A code that is wrong, used up, or too old: one sentence for all.
pub fn wrong_code() -> AppError {
    AppError::new(ErrorKind::Refused, "door-code-wrong").hint("door-code-wrong-hint")
}
