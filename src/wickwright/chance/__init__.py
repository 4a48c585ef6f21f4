"""Beliefs over enumerated hypotheses, what to ask next, and what to repair next.

This floor has never heard of a lamp or a caller: arrays in, arrays out. A *hypothesis* is one
row of a table (a set of causes, a model), a *likelihood* is how probable what was heard is under
each hypothesis, a *sign* is something a cause may make seen.
"""
