"""A sheet of paper: its elements, head, look and print."""
