"""Orders that came in: every fault of each, and the order as it should be."""
