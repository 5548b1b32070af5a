//! Who is asking: a person who has signed in, or a deck device that was paired.

use std::collections::BTreeMap;

use uuid::Uuid;

use crate::role::{Licence, Role};

/// Names an account.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct AccountId(pub Uuid);

/// Names a paired deck device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceId(pub Uuid);

/// The swimmer a record is about, by the same random id that the facts carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Subject(pub Uuid);

/// How a bound account stands to one swimmer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Binding {
    /// The swimmer has agreed that this guardian sees the health history too. Asked from the teenage years on.
    pub history: bool,
}

/// By what somebody came in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Via {
    /// By name and password.
    Account(AccountId),
    /// By a paired device: always a supervisor, whoever holds it.
    Device(DeviceId),
    /// At the laptop itself, on the command line: whoever can do that holds the file already.
    Laptop,
}

/// Who is asking.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Principal {
    /// By what.
    pub via: Via,
    /// Name that stands in records.
    pub name: String,
    /// Role.
    pub role: Role,
    /// Licence, if any is recorded; whether it is valid depends on the day.
    pub licence: Option<Licence>,
    /// Swimmers whose record is this person's own business: one's own, or a guardian's wards.
    pub bound: BTreeMap<Subject, Binding>,
}

impl Principal {
    /// Whoever sits at the laptop's own command line.
    pub fn laptop(name: &str) -> Self {
        Self {
            via: Via::Laptop,
            name: name.to_owned(),
            role: Role::Owner,
            licence: None,
            bound: BTreeMap::new(),
        }
    }

    /// A paired deck device. It is a supervisor and nothing else, whoever paired it.
    pub fn device(id: DeviceId, label: &str) -> Self {
        Self {
            via: Via::Device(id),
            name: label.to_owned(),
            role: Role::Supervisor,
            licence: None,
            bound: BTreeMap::new(),
        }
    }
}
