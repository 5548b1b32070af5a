UPDATE door_accounts
SET role = ?2, name = ?3, password = ?4, licence = ?5, licence_until = ?6, confirmed = ?7
WHERE id = ?1 AND closed IS NULL;
