INSERT INTO door_codes (id, purpose, account, made_by, hash, ends, wrong) VALUES (?1, ?2, ?3, ?4, ?5, ?6, 0);
