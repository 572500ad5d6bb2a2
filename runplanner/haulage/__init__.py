"""Haulage: what a truck may carry and how long the roads take."""
