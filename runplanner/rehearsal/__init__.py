"""The campaign played many times with luck, planned again each morning: what a plan is worth."""
