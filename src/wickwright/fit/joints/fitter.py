"""The fitter of a glass shade inside a holder's ring."""

from __future__ import annotations

from wickwright.fit.joints.grade import play
from wickwright.fit.joints.round_seat import RoundSeat

__all__ = ["CLEARANCE", "FITTER"]

CLEARANCE = play(0.30e-3, 3.00e-3, loose=2.00e-3)
"""Inside of the ring less outside of the fitter [m]; above 5.00 mm it drops; 'assumption'."""

SKETCH = r"""
       \               /
        \    shade    /
         |<--- d --->|          d  diameter: outside of the shade's fitter
      |  |           |  |          (standing side)
      |  |___________|  |       D  diameter: inside of the ring
      |<------ D ------>|          (carrying side)
           ring                 clearance = D - d
"""

FITTER = RoundSeat(
    key="fitter",
    sketch=SKETCH,
    reads=("diameter",),
    source="assumption",
    borders=CLEARANCE,
)
"""Clearance 0.30 to 3.00 mm, loose to 5.00 mm."""
