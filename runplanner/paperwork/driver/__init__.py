"""The driver's paper, with its loading list and cautions."""
