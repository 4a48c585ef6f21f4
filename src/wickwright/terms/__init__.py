"""The words everything else is said in: quantities, findings, rules and sources.

This floor imports nothing of ours. A quantity is an SI float with its kind; it becomes
text in the user's units only in :mod:`wickwright.terms.units` and only for an edge.
"""
