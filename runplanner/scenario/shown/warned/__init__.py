"""What `check` warns of, by what it is about."""
