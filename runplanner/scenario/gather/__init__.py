"""Yards gathered from files people already have."""
