INSERT INTO door_audit (seq, at, via, who, role, act, thing, subject, everybody, item, previous, hash)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12);
