UPDATE facts
SET erased = 1, payload = NULL, content = NULL, salt = NULL, author = NULL, device = NULL,
    device_seq = NULL, reason = NULL, natural_key = NULL
WHERE subject = ?1 AND erased = 0;
