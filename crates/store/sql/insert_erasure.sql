INSERT INTO erasures (subject, author, at, ground) VALUES (?1, ?2, ?3, ?4);
