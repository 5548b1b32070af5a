SELECT at FROM door_tries WHERE bucket = ?1 AND ?2 <= at ORDER BY at, number;
