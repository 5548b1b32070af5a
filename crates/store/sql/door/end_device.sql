UPDATE door_devices SET token = NULL, ended = ?2 WHERE id = ?1 AND ended IS NULL;
