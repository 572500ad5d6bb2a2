"""Why work is left undone, and what would get it done."""
