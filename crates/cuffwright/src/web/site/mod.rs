//! What every request shares: the desk, the clock, who is writing, and what was already sent.
//!
//! - [`guard`]: who may ask at all: loopback names, our own pages, no strangers.
//! - [`run`]: from a route to a page function and back, defects caught.
//! - [`sent`]: a form as it arrived.
//! - [`visit`]: one request as a page function sees it.
//! - [`serve`]: the socket.

pub mod guard;
pub mod run;
pub mod sent;
pub mod serve;
pub mod visit;

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use app::desk::{Author, Desk};
use app::moment::Moment;
use store::SubjectId;

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
    author: Author,
    clock: Clock,
    banner: Option<String>,
    port: u16,
    token: String,
    sent_forms: Mutex<VecDeque<(String, String)>>,
    held_files: Mutex<VecDeque<Held>>,
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
    /// A site around one desk, reached through one port.
    pub fn new(desk: Desk, author: Author, clock: Clock, banner: Option<String>, port: u16) -> Self {
        Self(Arc::new(Shared {
            desk: Mutex::new(desk),
            author,
            clock,
            banner,
            port,
            token: fresh_key(),
            sent_forms: Mutex::new(VecDeque::new()),
            held_files: Mutex::new(VecDeque::new()),
        }))
    }

    /// Who writes.
    pub fn author(&self) -> &Author {
        &self.0.author
    }

    /// The words above every page.
    pub fn banner(&self) -> Option<&str> {
        self.0.banner.as_deref()
    }

    /// The port in every address.
    pub fn port(&self) -> u16 {
        self.0.port
    }

    /// What every form of ours carries: another site cannot know it, and it changes with every start.
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
