//! What every request shares: the desk, the clock, who is writing, and what was already sent.
//!
//! - [`guard`]: who may ask at all: our own names, our own pages, no strangers.
//! - [`way`]: how a request came, and its cookies; [`needs`]: what an address asks; [`enter`]: who asks, and whether
//!   they may; [`see_as`]: the demo as others see it; [`badge`]: who one is, and the way out.
//! - [`run`]: from a route to a page function and back, defects caught.
//! - [`sent`]: a form as it arrived.
//! - [`visit`]: one request as a page function sees it.
//! - [`serve`]: the socket of this machine; [`on_lan`]: the one of the club's network; [`lan`]: how phones reach it.

pub mod badge;
pub mod enter;
pub mod guard;
pub mod lan;
pub mod needs;
pub mod on_lan;
mod reception;
pub mod run;
pub mod see_as;
pub mod sent;
pub mod serve;
pub mod visit;
pub mod way;

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, RwLock};

use app::desk::{Author, Desk};
use app::moment::Moment;
use store::SubjectId;

use lan::Lan;

/// Reads the clock; the one place where time enters the pages.
pub type Clock = Arc<dyn Fn() -> Moment + Send + Sync>;

/// Forms remembered, so that one sent twice is stored once.
const FORMS_REMEMBERED: usize = 4096;
/// Files kept between preview and confirmation.
const FILES_HELD: usize = 4;

/// What every request shares.
#[derive(Clone)]
pub struct Site(Arc<Shared>);

struct Shared {
    desk: Mutex<Desk>,
    entry: Entry,
    clock: Clock,
    banner: Option<String>,
    port: u16,
    lan: RwLock<Option<Lan>>,
    token: String,
    sent_forms: Mutex<VecDeque<(String, String)>>,
    held_files: Mutex<VecDeque<Held>>,
}

/// How one comes in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Entry {
    /// Nobody signs in; whoever comes writes as this author. Only for the invented club, and only on this machine.
    Demo(Author),
    /// By an account or a paired device.
    Accounts,
}

impl Entry {
    /// True for the demo.
    pub const fn is_demo(&self) -> bool {
        matches!(self, Entry::Demo(_))
    }
}

/// A file that was shown in a preview and waits for a yes.
#[derive(Debug, Clone)]
pub struct Held {
    /// Under which it is asked for again.
    pub key: String,
    /// Its name on the sender's disk.
    pub name: String,
    /// Its bytes.
    pub bytes: Arc<Vec<u8>>,
}

impl Site {
    /// A site around one desk, reached through one port, without a door: for the demo, on this machine. Whoever comes
    /// is the author.
    pub fn new(desk: Desk, author: Author, clock: Clock, banner: Option<String>, port: u16) -> Self {
        Self::with(desk, Entry::Demo(author), clock, banner, port)
    }

    /// A site around one desk, reached through one port.
    pub fn with(desk: Desk, entry: Entry, clock: Clock, banner: Option<String>, port: u16) -> Self {
        Self(Arc::new(Shared {
            desk: Mutex::new(desk),
            entry,
            clock,
            banner,
            port,
            lan: RwLock::new(None),
            token: fresh_key(),
            sent_forms: Mutex::new(VecDeque::new()),
            held_files: Mutex::new(VecDeque::new()),
        }))
    }

    /// How one comes in.
    pub fn entry(&self) -> &Entry {
        &self.0.entry
    }

    /// The words above every page.
    pub fn banner(&self) -> Option<&str> {
        self.0.banner.as_deref()
    }

    /// The port in every address.
    pub fn port(&self) -> u16 {
        self.0.port
    }

    /// Names and addresses of this laptop on the club's network; none where only this machine is served.
    pub fn hosts(&self) -> Vec<String> {
        self.lan().map(|lan| lan.hosts()).unwrap_or_default()
    }

    /// How phones reach this laptop; none where only this machine is served.
    pub fn lan(&self) -> Option<Lan> {
        self.0.lan.read().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Says how phones reach it now.
    pub fn set_lan(&self, lan: Lan) {
        *self.0.lan.write().unwrap_or_else(PoisonError::into_inner) = Some(lan);
    }

    /// In the demo, what every form of ours carries: another site cannot know it, and it changes with every start.
    pub fn token(&self) -> &str {
        &self.0.token
    }

    /// Now.
    pub fn now(&self) -> Moment {
        (self.0.clock)()
    }

    /// The desk, for one reader or writer at a time. After a fault in the middle of something the desk is read anew
    /// from the store, which is never half-written.
    pub fn desk(&self) -> MutexGuard<'_, Desk> {
        match self.0.desk.lock() {
            Ok(desk) => desk,
            Err(poisoned) => {
                let mut desk = poisoned.into_inner();
                if desk.read_anew().is_ok() {
                    self.0.desk.clear_poison();
                }
                desk
            }
        }
    }

    /// Judges every swimmer for today, so that no reader waits for it. What is known already costs next to nothing,
    /// and the desk is let go between two swimmers.
    pub fn warm(&self) {
        let today = self.now().today;
        let subjects: Vec<SubjectId> = self.desk().squad_on(today).map(|person| person.subject).collect();
        for subject in subjects {
            let desk = self.desk();
            if let Ok(person) = desk.person(subject) {
                desk.assess(person, today);
            }
        }
    }

    /// Where a form that was already stored had led to.
    pub fn already_led_to(&self, key: &str) -> Option<String> {
        let forms = self.0.sent_forms.lock().unwrap_or_else(PoisonError::into_inner);
        forms.iter().find(|(known, _)| known == key).map(|(_, to)| to.clone())
    }

    /// Remembers that a form was stored.
    pub fn remember_form(&self, key: &str, led_to: &str) {
        let mut forms = self.0.sent_forms.lock().unwrap_or_else(PoisonError::into_inner);
        if forms.len() == FORMS_REMEMBERED {
            forms.pop_front();
        }
        forms.push_back((key.to_owned(), led_to.to_owned()));
    }

    /// Keeps a file for the next step and names it.
    pub fn hold(&self, name: String, bytes: Vec<u8>) -> Held {
        let held = Held { key: fresh_key(), name, bytes: Arc::new(bytes) };
        let mut files = self.0.held_files.lock().unwrap_or_else(PoisonError::into_inner);
        if files.len() == FILES_HELD {
            files.pop_front();
        }
        files.push_back(held.clone());
        held
    }

    /// The file kept under this key; none when it has been let go.
    pub fn held(&self, key: &str) -> Option<Held> {
        let files = self.0.held_files.lock().unwrap_or_else(PoisonError::into_inner);
        files.iter().find(|file| file.key == key).cloned()
    }
}

/// A key that nobody can guess.
pub fn fresh_key() -> String {
    uuid::Uuid::new_v4().simple().to_string()
}
