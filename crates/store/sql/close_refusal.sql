UPDATE refused SET closed_by = ?2, closed_at = ?3, closed_why = ?4
WHERE number = ?1 AND closed_by IS NULL;
