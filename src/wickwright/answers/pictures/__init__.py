"""Drawings and charts of a lamp, to scale and as it burns."""
