INSERT INTO chain (seq, fact, erasure, digest, previous, hash) VALUES (?1, ?2, ?3, ?4, ?5, ?6);
