"""The daybook: a plan written down, trip by trip, and its text on disk."""
