"""All seasons gone through, where only rounds of feed or only take-offs are left."""
