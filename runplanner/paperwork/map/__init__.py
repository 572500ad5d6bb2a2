"""The map: one page that opens with the network off."""
