DELETE FROM door_tries WHERE at <= ?1;
