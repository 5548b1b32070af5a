UPDATE revision SET number = number + 1 RETURNING number;
