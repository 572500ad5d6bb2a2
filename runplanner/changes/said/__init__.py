"""A line as it was typed: its words, names, days and counts."""
