"""Yards: the columns of their rows, and what tables say of single yards."""
