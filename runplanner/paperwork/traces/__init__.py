"""Traces: what a yard under suspicion had contact with."""
