INSERT INTO door_settings (name, value, at) VALUES (?1, ?2, ?3);
