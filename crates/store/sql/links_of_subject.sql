SELECT
    c.id, c.supersedes, c.subject, c.kind, c.payload IS NOT NULL,
    t.subject = c.subject AND t.kind = c.kind
FROM facts AS c
LEFT JOIN facts AS t ON t.id = c.supersedes
WHERE c.supersedes IS NOT NULL AND c.erased = 0 AND c.subject = ?1;
