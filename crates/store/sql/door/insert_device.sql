INSERT INTO door_devices (id, token, label, paired_by, began, seen) VALUES (?1, ?2, ?3, ?4, ?5, ?5);
