-- Who may come in, and who saw and changed what. No health data here, and nothing of this in the log of facts.

CREATE TABLE door_accounts (
    id            BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
    role          TEXT NOT NULL,
    created       INTEGER NOT NULL,
    -- As it is compared; gone when the account is closed, so that the name is free again.
    login         TEXT UNIQUE,
    name          TEXT NOT NULL,
    -- None until an invitation has been taken up.
    password      TEXT,
    licence       TEXT,
    licence_until TEXT,
    confirmed     INTEGER NOT NULL CHECK (confirmed IN (0, 1)),
    closed        INTEGER,
    CHECK ((login IS NULL) = (closed IS NOT NULL)),
    CHECK (closed IS NULL OR password IS NULL),
    CHECK ((licence IS NULL) = (licence_until IS NULL))
) STRICT;

CREATE TABLE door_bindings (
    account BLOB NOT NULL REFERENCES door_accounts (id),
    subject BLOB NOT NULL CHECK (length(subject) = 16),
    history INTEGER NOT NULL CHECK (history IN (0, 1)),
    PRIMARY KEY (account, subject)
) STRICT;

CREATE INDEX door_bindings_by_subject ON door_bindings (subject);

CREATE TABLE door_sessions (
    token   BLOB NOT NULL PRIMARY KEY CHECK (length(token) = 32),
    account BLOB NOT NULL REFERENCES door_accounts (id),
    began   INTEGER NOT NULL,
    seen    INTEGER NOT NULL
) STRICT;

CREATE INDEX door_sessions_by_account ON door_sessions (account);

CREATE TABLE door_devices (
    id        BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
    -- Gone when the pairing has ended.
    token     BLOB UNIQUE CHECK (token IS NULL OR length(token) = 32),
    label     TEXT NOT NULL,
    paired_by BLOB REFERENCES door_accounts (id),
    began     INTEGER NOT NULL,
    seen      INTEGER NOT NULL,
    ended     INTEGER,
    CHECK ((token IS NULL) = (ended IS NOT NULL))
) STRICT;

-- Open one-time codes: at most one for each purpose and account. The id salts the hash.
CREATE TABLE door_codes (
    id      BLOB NOT NULL PRIMARY KEY CHECK (length(id) = 16),
    purpose TEXT NOT NULL,
    account BLOB REFERENCES door_accounts (id),
    made_by BLOB REFERENCES door_accounts (id),
    hash    BLOB NOT NULL CHECK (length(hash) = 32),
    ends    INTEGER NOT NULL,
    wrong   INTEGER NOT NULL
) STRICT;

CREATE TABLE door_tries (
    number INTEGER PRIMARY KEY,
    bucket BLOB NOT NULL CHECK (length(bucket) = 32),
    at     INTEGER NOT NULL
) STRICT;

CREATE INDEX door_tries_by_bucket ON door_tries (bucket, at);
CREATE INDEX door_tries_by_time ON door_tries (at);

-- Only ids and words, no names and no text: what is left of an erased person here says nothing of them.
CREATE TABLE door_audit (
    seq       INTEGER PRIMARY KEY,
    at        INTEGER NOT NULL,
    via       TEXT NOT NULL CHECK (via IN ('account', 'device', 'laptop', 'nobody')),
    who       BLOB CHECK (who IS NULL OR length(who) = 16),
    role      TEXT,
    act       TEXT NOT NULL,
    thing     TEXT,
    subject   BLOB CHECK (subject IS NULL OR length(subject) = 16),
    everybody INTEGER NOT NULL CHECK (everybody IN (0, 1)),
    item      BLOB CHECK (item IS NULL OR length(item) = 16),
    previous  BLOB NOT NULL CHECK (length(previous) = 32),
    hash      BLOB NOT NULL CHECK (length(hash) = 32),
    CHECK ((who IS NOT NULL) = (via IN ('account', 'device'))),
    CHECK (everybody = 0 OR subject IS NULL)
) STRICT;

CREATE INDEX door_audit_by_subject ON door_audit (subject) WHERE subject IS NOT NULL;
CREATE INDEX door_audit_by_who ON door_audit (who) WHERE who IS NOT NULL;
CREATE INDEX door_audit_of_everybody ON door_audit (seq) WHERE everybody = 1;

CREATE TRIGGER door_audit_is_not_replaced BEFORE INSERT ON door_audit
WHEN NEW.seq <= (SELECT coalesce(max(seq), 0) FROM door_audit)
BEGIN
    SELECT raise(ABORT, 'the audit only grows');
END;

CREATE TRIGGER door_audit_is_not_changed BEFORE UPDATE ON door_audit
BEGIN
    SELECT raise(ABORT, 'the audit only grows');
END;

CREATE TRIGGER door_audit_is_not_deleted BEFORE DELETE ON door_audit
BEGIN
    SELECT raise(ABORT, 'the audit only grows');
END;

-- Accounts are closed, never deleted: the audit names them.
CREATE TRIGGER door_accounts_are_not_deleted BEFORE DELETE ON door_accounts
BEGIN
    SELECT raise(ABORT, 'accounts are closed, never deleted');
END;

CREATE TRIGGER door_accounts_stay_closed BEFORE UPDATE ON door_accounts
WHEN OLD.closed IS NOT NULL AND NEW.closed IS NOT OLD.closed
BEGIN
    SELECT raise(ABORT, 'a closed account stays closed');
END;

-- What the club has settled about the door, newest last: an earlier setting is kept.
CREATE TABLE door_settings (
    number INTEGER PRIMARY KEY,
    name   TEXT NOT NULL,
    value  TEXT NOT NULL,
    at     INTEGER NOT NULL
) STRICT;

CREATE TRIGGER door_settings_are_not_changed BEFORE UPDATE ON door_settings
BEGIN
    SELECT raise(ABORT, 'settings are only added to');
END;

CREATE TRIGGER door_settings_are_not_deleted BEFORE DELETE ON door_settings
BEGIN
    SELECT raise(ABORT, 'settings are only added to');
END;
