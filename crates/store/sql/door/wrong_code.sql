UPDATE door_codes SET wrong = wrong + 1 WHERE id = ?1;
