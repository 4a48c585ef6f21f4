"""The fit book looked through: what a part fits, and what a lamp is known by."""
