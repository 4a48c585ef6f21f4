"""Where a lamp stands: towns and heights, as typed and in words."""
