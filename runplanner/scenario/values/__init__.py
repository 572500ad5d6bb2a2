"""Single values: units, limits, figures, days and names."""
