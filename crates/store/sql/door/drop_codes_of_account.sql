DELETE FROM door_codes WHERE account = ?1;
