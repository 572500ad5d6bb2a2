"""The search: visits taken out of a plan and built in again."""
