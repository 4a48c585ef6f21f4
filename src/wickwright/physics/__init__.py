"""The phenomena: air, fuel, combustion, draft, heat, light, glass.

This floor has never heard of a lamp. One published method is one function; its source key
and equation stand in its docstring and its range of validity is data. Every function takes
a float or an array of floats, in SI units, and answers in kind.
"""
