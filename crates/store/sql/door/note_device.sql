UPDATE door_devices SET seen = max(seen, ?2) WHERE id = ?1;
