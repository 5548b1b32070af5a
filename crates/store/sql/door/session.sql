SELECT account, began, seen FROM door_sessions WHERE token = ?1;
