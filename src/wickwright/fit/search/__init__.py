"""The route search: all unbeaten ways to fill a tree, and why there is none.

It knows candidates, sockets, costs, demands and one leverage limit. It has never heard of
a lamp: toy parts test it.
"""
