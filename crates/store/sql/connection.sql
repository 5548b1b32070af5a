PRAGMA synchronous = FULL;
PRAGMA foreign_keys = ON;
PRAGMA recursive_triggers = ON;
PRAGMA secure_delete = ON;
PRAGMA trusted_schema = OFF;
