SELECT id, role, created, login, name, password, licence, licence_until, confirmed, closed
FROM door_accounts
WHERE login = ?1;
