"""A foot in a recess, band or hook."""

from __future__ import annotations

from wickwright.fit.joints.grade import play
from wickwright.fit.joints.round_seat import RoundSeat

__all__ = ["CLEARANCE", "REST"]

CLEARANCE = play(0.0, 2.00e-3, loose=2.00e-3)
"""Bore of the recess, band or hook less foot [m]; 'assumption'."""

SKETCH = r"""
      |               |
      |<----- d ----->|         d  diameter: of the foot (standing side)
   |  |_______________|  |      D  diameter: bore of the recess, band or
   |_____________________|         hook (carrying side)
   |<-------- D -------->|      clearance = D - d
"""

REST = RoundSeat(
    key="rest",
    sketch=SKETCH,
    reads=("diameter",),
    source="assumption",
    borders=CLEARANCE,
)
"""Clearance 0 to 2.00 mm, loose to 4.00 mm."""
