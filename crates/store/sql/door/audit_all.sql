SELECT seq, at, via, who, role, act, thing, subject, everybody, item, previous, hash
FROM door_audit
ORDER BY seq;
