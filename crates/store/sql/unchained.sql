SELECT
    (SELECT count(*) FROM facts WHERE id NOT IN (SELECT fact FROM chain WHERE fact IS NOT NULL))
    + (SELECT count(*) FROM erasures WHERE subject NOT IN (SELECT erasure FROM chain WHERE erasure IS NOT NULL));
