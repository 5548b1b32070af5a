SELECT
    facts.id, facts.kind, facts.version, facts.subject, facts.device_time, facts.received, facts.supersedes,
    facts.payload, facts.content, facts.author, facts.device, facts.device_seq, facts.reason, facts.natural_key,
    facts.salt, facts.erased,
    chain.seq, chain.digest, chain.previous, chain.hash, chain.fact, chain.erasure,
    erasures.author, erasures.at, erasures.ground
FROM chain
LEFT JOIN facts ON facts.id = chain.fact
LEFT JOIN erasures ON erasures.subject = chain.erasure
ORDER BY chain.seq;
