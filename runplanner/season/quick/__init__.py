"""Quick sums: the cost of a season within some parts in a thousand, thousands a second."""
