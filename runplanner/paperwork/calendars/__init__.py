"""The campaign for calendar programs (RFC 5545)."""
