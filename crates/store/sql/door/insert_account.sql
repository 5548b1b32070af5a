INSERT INTO door_accounts (id, role, created, login, name, password, licence, licence_until, confirmed)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9);
