"""Lists: to buy, to mix, to fetch, to keep, and what is left undone."""
