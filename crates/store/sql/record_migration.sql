INSERT INTO migrations (number, name) VALUES (?1, ?2);
