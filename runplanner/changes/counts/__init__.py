"""What was done at stops, and what follows from it for colonies, boxes and the honey house."""
