"""The season: every trip of the campaign chosen together."""
