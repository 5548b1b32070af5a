DELETE FROM door_codes WHERE purpose = ?1 AND account IS ?2;
