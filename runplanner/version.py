"""The release this is."""

PROGRAM = "runplanner"
"""What the program is called where plans say what made them."""

__version__ = "0.1.0"
