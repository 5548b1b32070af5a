//! One process owns a store: an OS lock on a file beside it, which also holds the owner's process number.
//!
//! The lock is the operating system's, so it ends with its owner, however the owner ends. The file itself stays:
//! removing it would let two processes lock two different files of one name.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use crate::error::Error;
use crate::file::beside;

#[derive(Debug)]
pub(crate) struct Lock(File);

impl Lock {
    /// Takes the lock of the store at `path`, or says who has it.
    pub(crate) fn take(path: &Path) -> Result<Self, Error> {
        let lock_path = beside(path, ".lock");
        let failed = |source| Error::Io { path: lock_path.clone(), source };
        let mut file = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(&lock_path)
            .map_err(failed)?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Err(in_use(path.to_owned(), file)),
            Err(TryLockError::Error(source)) => return Err(failed(source)),
        }
        file.set_len(0).map_err(failed)?;
        write!(file, "{}", std::process::id()).map_err(failed)?;
        Ok(Self(file))
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        // The number is only a hint for people; the lock goes with the file handle in any case.
        self.0.set_len(0).ok();
    }
}

fn in_use(path: PathBuf, mut file: File) -> Error {
    let mut text = String::new();
    let pid = file.read_to_string(&mut text).ok().and_then(|_| text.trim().parse().ok());
    Error::InUse { path, pid }
}
