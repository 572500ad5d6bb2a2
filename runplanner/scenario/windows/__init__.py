"""Weather as people type it: hours that fit, days that were not spoken of."""
