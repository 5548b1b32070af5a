INSERT INTO facts (id, kind, version, subject, device_time, received, supersedes, erased)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, 1);
