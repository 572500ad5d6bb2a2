"""Places on the map, with their sun, country and zone."""
