"""The audit: every rule of a plan recomputed from the plan and its facts alone.

Nothing here is shared with the planner; a rule is written a second time on purpose, so
that a slip on one side is caught by the other.
"""
