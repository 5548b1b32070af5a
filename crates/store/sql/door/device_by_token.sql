SELECT id, token, label, paired_by, began, seen, ended FROM door_devices WHERE token = ?1;
