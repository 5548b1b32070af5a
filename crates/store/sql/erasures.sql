SELECT subject, author, at, ground FROM erasures ORDER BY subject;
