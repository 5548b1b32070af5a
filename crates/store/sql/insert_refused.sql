INSERT INTO refused (
    id, kind, version, subject, device_time, received, supersedes,
    payload, content, author, device, device_seq, reason, natural_key
)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)
ON CONFLICT (id, content) DO NOTHING;
