DELETE FROM door_bindings WHERE account = ?1;
