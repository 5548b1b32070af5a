UPDATE door_sessions SET seen = max(seen, ?2) WHERE token = ?1;
