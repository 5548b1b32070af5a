SELECT subject, history FROM door_bindings WHERE account = ?1 ORDER BY subject;
