SELECT number FROM revision;
