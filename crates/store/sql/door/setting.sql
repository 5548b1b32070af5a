SELECT value FROM door_settings WHERE name = ?1 ORDER BY number DESC LIMIT 1;
