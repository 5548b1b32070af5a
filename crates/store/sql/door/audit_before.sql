SELECT seq, at, via, who, role, act, thing, subject, everybody, item
FROM door_audit
WHERE seq < ?1
ORDER BY seq DESC
LIMIT ?2;
