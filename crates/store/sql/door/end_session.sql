DELETE FROM door_sessions WHERE token = ?1;
