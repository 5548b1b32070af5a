SELECT id, content FROM facts WHERE erased = 0 AND payload IS NOT NULL;
