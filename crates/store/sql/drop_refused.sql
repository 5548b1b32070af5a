DELETE FROM refused
WHERE subject = ?1 OR id IN (SELECT id FROM facts WHERE subject = ?1);
