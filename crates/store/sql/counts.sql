SELECT
    (SELECT count(*) FROM facts),
    (SELECT count(*) FROM facts WHERE erased = 1),
    (SELECT count(*) FROM erasures),
    (SELECT count(*) FROM refused WHERE closed_by IS NULL),
    (SELECT count(*) FROM documents);
