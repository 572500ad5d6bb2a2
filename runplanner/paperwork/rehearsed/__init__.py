"""What a rehearsal came to, as a page and as tables."""
