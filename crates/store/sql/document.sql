SELECT text FROM documents WHERE hash = ?1;
