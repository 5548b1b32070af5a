-- Facts are written once. A row changes only when its subject has been erased, and then only into a tombstone:
-- the triggers below allow nothing else, so no code path needs a switch that could be left on.

CREATE TABLE migrations (
    number INTEGER PRIMARY KEY,
    name   TEXT NOT NULL
) STRICT;

CREATE TABLE erasures (
    subject BLOB NOT NULL PRIMARY KEY CHECK (length(subject) = 16),
    author  TEXT NOT NULL,
    at      TEXT NOT NULL,
    ground  TEXT NOT NULL
) STRICT;

CREATE TABLE facts (
    seq         INTEGER PRIMARY KEY,
    id          BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
    kind        TEXT NOT NULL,
    version     INTEGER NOT NULL,
    subject     BLOB NOT NULL CHECK (length(subject) = 16),
    device_time TEXT NOT NULL,
    received    TEXT NOT NULL,
    supersedes  BLOB CHECK (supersedes IS NULL OR length(supersedes) = 16),
    erased      INTEGER NOT NULL CHECK (erased IN (0, 1)),
    -- From here on: gone in a tombstone.
    payload     TEXT,
    content     BLOB,
    salt        BLOB,
    author      TEXT,
    device      TEXT,
    device_seq  INTEGER,
    reason      TEXT,
    natural_key TEXT,
    CHECK (
        CASE erased
            WHEN 0 THEN
                content IS NOT NULL AND salt IS NOT NULL
                AND author IS NOT NULL AND device IS NOT NULL AND device_seq IS NOT NULL
                AND (supersedes IS NULL) = (reason IS NULL)
                AND (payload IS NOT NULL OR supersedes IS NOT NULL)
            ELSE
                coalesce(payload, content, salt, author, device, device_seq, reason, natural_key) IS NULL
        END
    )
) STRICT;

CREATE INDEX facts_by_subject ON facts (subject, id);
CREATE INDEX facts_by_kind ON facts (kind, id);
CREATE INDEX facts_by_target ON facts (supersedes) WHERE supersedes IS NOT NULL;
CREATE INDEX corrections_by_subject ON facts (subject) WHERE supersedes IS NOT NULL;
CREATE INDEX facts_by_natural_key ON facts (kind, natural_key) WHERE natural_key IS NOT NULL;

CREATE TABLE chain (
    seq      INTEGER PRIMARY KEY,
    fact     BLOB UNIQUE REFERENCES facts (id),
    erasure  BLOB UNIQUE REFERENCES erasures (subject),
    digest   BLOB NOT NULL CHECK (length(digest) = 32),
    previous BLOB NOT NULL CHECK (length(previous) = 32),
    hash     BLOB NOT NULL CHECK (length(hash) = 32),
    CHECK ((fact IS NULL) <> (erasure IS NULL))
) STRICT;

-- Rows that came under an id that was taken, with other content. A person looks at them.
CREATE TABLE refused (
    number      INTEGER PRIMARY KEY,
    id          BLOB NOT NULL CHECK (length(id) = 16),
    content     BLOB NOT NULL CHECK (length(content) = 32),
    kind        TEXT NOT NULL,
    version     INTEGER NOT NULL,
    subject     BLOB NOT NULL CHECK (length(subject) = 16),
    payload     TEXT,
    author      TEXT NOT NULL,
    device      TEXT NOT NULL,
    device_seq  INTEGER NOT NULL,
    device_time TEXT NOT NULL,
    received    TEXT NOT NULL,
    supersedes  BLOB,
    reason      TEXT,
    natural_key TEXT,
    closed_by   TEXT,
    closed_at   TEXT,
    closed_why  TEXT,
    UNIQUE (id, content)
) STRICT;

CREATE TABLE documents (
    hash BLOB NOT NULL PRIMARY KEY CHECK (length(hash) = 32),
    text TEXT NOT NULL
) STRICT;

CREATE TABLE revision (
    only   INTEGER PRIMARY KEY CHECK (only = 1),
    number INTEGER NOT NULL
) STRICT;

INSERT INTO revision VALUES (1, 0);

-- A replacing insert would delete the old row without a word; this says no before it can.
CREATE TRIGGER facts_are_not_replaced BEFORE INSERT ON facts
WHEN EXISTS (SELECT 1 FROM facts WHERE id = NEW.id OR seq = NEW.seq)
BEGIN
    SELECT raise(ABORT, 'facts are never replaced');
END;

CREATE TRIGGER facts_are_not_deleted BEFORE DELETE ON facts
BEGIN
    SELECT raise(ABORT, 'facts are never deleted');
END;

CREATE TRIGGER facts_change_only_into_tombstones BEFORE UPDATE ON facts
WHEN NOT (
    OLD.subject IN (SELECT subject FROM erasures)
    AND NEW.erased = 1
    AND NEW.seq = OLD.seq
    AND NEW.id = OLD.id
    AND NEW.kind = OLD.kind
    AND NEW.version = OLD.version
    AND NEW.subject = OLD.subject
    AND NEW.device_time = OLD.device_time
    AND NEW.received = OLD.received
    AND NEW.supersedes IS OLD.supersedes
)
BEGIN
    SELECT raise(ABORT, 'facts are never changed');
END;

CREATE TRIGGER chain_is_not_replaced BEFORE INSERT ON chain
WHEN NEW.seq <= (SELECT coalesce(max(seq), 0) FROM chain)
BEGIN
    SELECT raise(ABORT, 'the chain only grows');
END;

CREATE TRIGGER chain_is_not_changed BEFORE UPDATE ON chain
BEGIN
    SELECT raise(ABORT, 'the chain only grows');
END;

CREATE TRIGGER chain_is_not_deleted BEFORE DELETE ON chain
BEGIN
    SELECT raise(ABORT, 'the chain only grows');
END;

CREATE TRIGGER erasures_are_not_replaced BEFORE INSERT ON erasures
WHEN EXISTS (SELECT 1 FROM erasures WHERE subject = NEW.subject)
BEGIN
    SELECT raise(ABORT, 'erasures are never replaced');
END;

CREATE TRIGGER erasures_are_not_changed BEFORE UPDATE ON erasures
BEGIN
    SELECT raise(ABORT, 'erasures are never changed');
END;

CREATE TRIGGER erasures_are_not_deleted BEFORE DELETE ON erasures
BEGIN
    SELECT raise(ABORT, 'erasures are never deleted');
END;

CREATE TRIGGER documents_are_not_replaced BEFORE INSERT ON documents
WHEN EXISTS (SELECT 1 FROM documents WHERE hash = NEW.hash)
BEGIN
    SELECT raise(ABORT, 'documents are never replaced');
END;

CREATE TRIGGER documents_are_not_changed BEFORE UPDATE ON documents
BEGIN
    SELECT raise(ABORT, 'documents are never changed');
END;

CREATE TRIGGER documents_are_not_deleted BEFORE DELETE ON documents
BEGIN
    SELECT raise(ABORT, 'documents are never deleted');
END;

CREATE TRIGGER refusals_are_only_closed BEFORE UPDATE ON refused
WHEN OLD.closed_by IS NOT NULL
    OR NEW.closed_by IS NULL
    OR NEW.id IS NOT OLD.id
    OR NEW.content IS NOT OLD.content
    OR NEW.subject IS NOT OLD.subject
    OR NEW.payload IS NOT OLD.payload
    OR NEW.author IS NOT OLD.author
BEGIN
    SELECT raise(ABORT, 'refusals are only closed');
END;

CREATE TRIGGER refusals_go_only_with_their_subject BEFORE DELETE ON refused
WHEN OLD.subject NOT IN (SELECT subject FROM erasures)
    AND OLD.id NOT IN (SELECT id FROM facts WHERE erased = 1)
BEGIN
    SELECT raise(ABORT, 'refusals are kept');
END;
