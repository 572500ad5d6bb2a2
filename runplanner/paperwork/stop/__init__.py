"""What papers tell of a call, and what they work out of a plan by themselves."""
