SELECT token, began, seen FROM door_sessions WHERE account = ?1 ORDER BY began, token;
