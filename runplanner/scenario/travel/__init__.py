"""Drives: which roads and speeds, typed minutes, hours of driving."""
