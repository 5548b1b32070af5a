INSERT INTO door_bindings (account, subject, history) VALUES (?1, ?2, ?3)
ON CONFLICT (account, subject) DO UPDATE SET history = excluded.history;
