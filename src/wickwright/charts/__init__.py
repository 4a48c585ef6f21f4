"""Charts as SVG, and as PNG from the same drawing.

This floor has never heard of a lamp: it takes plain numbers in SI units and words, and
prints them in the units the user chose. The same numbers always give the same text. Every
line has a dash and a mark of its own beside its colour, so that a grey print can be read.
"""
