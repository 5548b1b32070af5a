INSERT INTO facts (
    id, kind, version, subject, device_time, received, supersedes, erased,
    payload, content, salt, author, device, device_seq, reason, natural_key
)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, 0, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15);
