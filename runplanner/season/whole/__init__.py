"""All seasons gone through, where only rounds of feed are left."""
