SELECT randomblob(16);
