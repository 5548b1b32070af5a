SELECT EXISTS (SELECT 1 FROM erasures WHERE subject = ?1);
