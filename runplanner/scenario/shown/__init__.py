"""What the facts amount to, and what is warned of before planning."""
