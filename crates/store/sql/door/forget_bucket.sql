DELETE FROM door_tries WHERE bucket = ?1;
