"""What the trade knows: syrup, boxes, strips, loads and hours, each number with its source.

Pure functions and constants.  Everything a user may change is a default here, never a rule.
"""
