"""Wickwright: the product-support desk of a maker of kerosene mantle lamps."""

__version__ = "0.1.0"
