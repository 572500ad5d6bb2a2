"""Forecasts of a scenario: where they come from, and what they leave of typed windows."""
