DELETE FROM door_sessions WHERE account = ?1;
