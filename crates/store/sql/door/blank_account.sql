UPDATE door_accounts SET name = '' WHERE id = ?1;
