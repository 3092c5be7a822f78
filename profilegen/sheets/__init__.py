"""Papers made of topics and views."""
