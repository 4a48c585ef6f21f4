"""Which lamp is it, and what on it is not its own: asking only what changes the answer."""
