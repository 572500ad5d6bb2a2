"""The rest of a truck's day that is out: its clock, what stands against it, whom to ring."""
