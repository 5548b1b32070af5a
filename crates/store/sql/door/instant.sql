SELECT coalesce(unixepoch(?1), 0) * 1000;
