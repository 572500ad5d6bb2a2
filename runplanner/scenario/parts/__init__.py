"""The tables of `outfit.toml`: bases, boxes, people, trucks, stores, season."""
