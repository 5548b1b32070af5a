SELECT id, kind, version, subject, device_time, received, supersedes
FROM facts
WHERE erased = 1
ORDER BY seq;
