SELECT seq, hash FROM door_audit ORDER BY seq DESC LIMIT 1;
