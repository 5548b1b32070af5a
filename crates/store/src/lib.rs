//! Facts in one SQLite file: append-only, acknowledged only after commit, one owner.
