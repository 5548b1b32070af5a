SELECT max(at) FROM door_audit
WHERE who = ?1 AND act = ?2 AND thing IS ?3 AND subject IS ?4 AND everybody = ?5;
