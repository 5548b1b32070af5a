INSERT INTO door_sessions (token, account, began, seen) VALUES (?1, ?2, ?3, ?3);
