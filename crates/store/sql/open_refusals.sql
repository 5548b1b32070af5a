SELECT
    id, kind, version, subject, device_time, received, supersedes,
    payload, content, author, device, device_seq, reason, natural_key, number
FROM refused
WHERE closed_by IS NULL
ORDER BY number;
