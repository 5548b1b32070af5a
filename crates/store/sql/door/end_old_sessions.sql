DELETE FROM door_sessions WHERE began <= ?1 OR seen <= ?2;
