SELECT id, purpose, account, made_by, hash, ends, wrong FROM door_codes WHERE purpose = ?1 AND account IS ?2;
