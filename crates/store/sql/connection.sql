PRAGMA synchronous = FULL;
PRAGMA foreign_keys = ON;
PRAGMA recursive_triggers = ON;
PRAGMA secure_delete = ON;
PRAGMA trusted_schema = OFF;
-- Kilobytes, negative by SQLite's convention: room for what one page of the program reads.
PRAGMA cache_size = -32768;
