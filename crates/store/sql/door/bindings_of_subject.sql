SELECT account FROM door_bindings WHERE subject = ?1 ORDER BY account;
