INSERT INTO door_tries (bucket, at) VALUES (?1, ?2);
