"""What a new plan changes, and why."""
