DELETE FROM door_bindings WHERE account = ?1 AND subject = ?2;
