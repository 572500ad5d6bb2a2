"""The lower bound: rows that every plan meets, and their cheapest solution."""
