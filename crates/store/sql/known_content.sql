SELECT content FROM facts WHERE id = ?1;
