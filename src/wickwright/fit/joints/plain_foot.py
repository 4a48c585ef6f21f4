"""A smooth glass foot pushed down between spring fingers."""

from __future__ import annotations

from wickwright.fit.joints.grip import Grip

__all__ = ["OVER", "PLAIN_FOOT", "UNDER"]

OVER = 0.5e-3
"""How far over the capture range a foot still goes in, with effort [m]; 'assumption'."""

UNDER = 0.5e-3
"""How far under the capture range a foot is still held, loosely [m]; 'assumption'."""

SKETCH = r"""
        |           |
        |   glass   |
        |           |           d  diameter: outside of the foot
     (  |<--- d --->|  )           (standing side)
      ) |           | (         capture: least and greatest foot that the
     (  |___________|  )           fingers hold (carrying side)
      \               /
       |<- capture ->|
"""

PLAIN_FOOT = Grip(
    key="plain-foot",
    sketch=SKETCH,
    reads=("capture", "diameter"),
    source="assumption",
    effort=OVER,
    loose=UNDER,
)
"""Foot inside the capture range; up to 0.5 mm over with effort, up to 0.5 mm under loose."""
