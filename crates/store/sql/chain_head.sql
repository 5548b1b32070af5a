SELECT seq, hash FROM chain ORDER BY seq DESC LIMIT 1;
