"""A day on one paper, and in a message."""
