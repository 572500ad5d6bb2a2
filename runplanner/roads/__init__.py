"""Roads: a map extract or a matrix service becomes minutes and metres from place to place."""
