DELETE FROM door_tries
WHERE number = (SELECT number FROM door_tries WHERE bucket = ?1 AND at = ?2 LIMIT 1);
