"""Stocks as lines tell them, and what is in store at a minute."""
