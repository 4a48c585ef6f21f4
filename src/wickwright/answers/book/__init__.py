"""The fit book looked through: what a part fits, what replaced it, which rules hold."""
