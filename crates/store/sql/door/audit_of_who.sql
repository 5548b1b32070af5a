SELECT seq, at, via, who, role, act, thing, subject, everybody, item
FROM door_audit
WHERE who = ?1 AND seq < ?2
ORDER BY seq DESC
LIMIT ?3;
