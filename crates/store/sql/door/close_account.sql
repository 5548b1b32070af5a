UPDATE door_accounts
SET closed = ?2, login = NULL, password = NULL, licence = NULL, licence_until = NULL
WHERE id = ?1 AND closed IS NULL;
