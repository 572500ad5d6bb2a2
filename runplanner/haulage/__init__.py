"""Haulage: what a truck may carry, how long the roads take, and the clock of its day."""
