SELECT text FROM documents ORDER BY hash;
