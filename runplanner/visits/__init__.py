"""Visits: what every yard is due, when it may be done, and in what order."""
