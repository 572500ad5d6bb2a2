"""The starter: files with every key, and what may be said in them."""
