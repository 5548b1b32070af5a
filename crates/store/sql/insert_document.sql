INSERT INTO documents (hash, text) VALUES (?1, ?2);
