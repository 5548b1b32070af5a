//! Running the command, and a folder that goes away with its test.

use std::ffi::OsStr;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};

use serde_json::Value;

/// What the command said and how it ended.
#[derive(Debug)]
pub(crate) struct Said {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Said {
    /// The answer in JSON; its shape must be the one expected.
    #[track_caller]
    pub(crate) fn json(&self, shape: &str) -> Value {
        let value: Value =
            serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error}: {self:?}"));
        assert_eq!(value["shape"], shape, "{self:?}");
        value
    }

    /// Ends with a code, and says something on the channel that belongs to it.
    #[track_caller]
    pub(crate) fn ends_with(self, code: i32) -> Self {
        assert_eq!(self.code, code, "{self:?}");
        assert!(!self.err.contains("panicked") && !self.err.contains("RUST_BACKTRACE"), "{self:?}");
        if code >= 2 {
            assert!(!self.err.is_empty() || self.out.contains("cuffwright.failure/1"), "{self:?}");
        }
        self
    }

    /// The message holds every one of these.
    #[track_caller]
    pub(crate) fn says(self, parts: &[&str]) -> Self {
        let all = format!("{}{}", self.out, self.err);
        // Lines are wrapped for a terminal; a sentence is one whatever its line ends.
        let all = all.split_whitespace().collect::<Vec<_>>().join(" ");
        for part in parts {
            assert!(all.contains(part), "no {part:?} in {self:?}");
        }
        self
    }
}

/// Runs the command.
pub(crate) fn cuffwright<S: AsRef<OsStr>>(arguments: &[S]) -> Said {
    cuffwright_reading(arguments, b"")
}

/// A process that is just being made holds every open file of this one for a moment, the lock of a store included.
/// So a test that opens a store itself does it while no other test starts a process.
static STARTING: Mutex<()> = Mutex::new(());

/// No process starts while this is held.
pub(crate) fn nothing_starts() -> MutexGuard<'static, ()> {
    STARTING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Runs the command with something on standard input.
pub(crate) fn cuffwright_reading<S: AsRef<OsStr>>(arguments: &[S], input: &[u8]) -> Said {
    let guard = nothing_starts();
    let child = start(arguments);
    drop(guard);
    ended(child, input)
}

/// Starts the command, whoever else starts.
pub(crate) fn start<S: AsRef<OsStr>>(arguments: &[S]) -> Child {
    Command::new(env!("CARGO_BIN_EXE_cuffwright"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap()
}

/// Waits for a command to end.
pub(crate) fn ended(mut child: Child, input: &[u8]) -> Said {
    // A command that does not read its input closes it early, which is its right.
    child.stdin.take().unwrap().write_all(input).ok();
    let output = child.wait_with_output().unwrap();
    Said {
        code: output.status.code().expect("ended by itself"),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// A folder of one test.
pub(crate) struct Folder(PathBuf);

impl Folder {
    pub(crate) fn new() -> Self {
        static NUMBER: AtomicU32 = AtomicU32::new(0);
        let number = NUMBER.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!("cuffwright-cli-{}-{number}", std::process::id()));
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    /// A path in it, as text.
    pub(crate) fn path(&self, name: &str) -> String {
        self.0.join(name).to_str().unwrap().to_owned()
    }

    /// A file in it.
    pub(crate) fn file(&self, name: &str, content: impl AsRef<[u8]>) -> String {
        let path = self.path(name);
        fs::write(&path, content).unwrap();
        path
    }

    /// Names of everything in it.
    pub(crate) fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(&self.0)
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

/// A file of this repository.
pub(crate) fn repository(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").join(path)
}
