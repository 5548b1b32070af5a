SELECT
    facts.id, facts.kind, facts.version, facts.subject, facts.device_time, facts.received, facts.supersedes,
    facts.payload, facts.content, facts.author, facts.device, facts.device_seq, facts.reason, facts.natural_key
FROM facts
WHERE subject = ?1 AND erased = 0
ORDER BY id;
