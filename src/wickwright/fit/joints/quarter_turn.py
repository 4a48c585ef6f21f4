"""A foot or basket with grooves that turns under lugs and locks: a bayonet."""

from __future__ import annotations

import math

from wickwright.fit.joints.grade import play
from wickwright.fit.joints.match import angle, lugs
from wickwright.fit.joints.round_seat import RoundSeat

__all__ = ["ANGLE_WITHIN", "CLEARANCE", "QUARTER_TURN"]

CLEARANCE = play(0.05e-3, 1.20e-3, loose=0.80e-3)
"""Bore less foot diameter [m], cold; hot it must not fall below 0; 'assumption'."""

ANGLE_WITHIN = math.radians(5.0)
"""How far the angles from entry to lock may differ [rad]; 'assumption'."""

SKETCH = r"""
         side                      from above
      |         |                   .-----.
      |  glass  |                 .'   o-. '.    lugs: how many
      |<-- d -->|                |        \  |   angle: from entry (o)
   [=]|_       _|[=] lugs        |    +    x |      to lock (x)
   |    |_____|    |              '.       .'
   |<------ D ---->|                '-----'
    bore of the gallery
   d  diameter: of the foot (standing side)
   D  diameter: of the bore (carrying side)      clearance = D - d
"""

QUARTER_TURN = RoundSeat(
    key="quarter-turn",
    sketch=SKETCH,
    reads=("diameter", "lugs", "angle"),
    source="assumption",
    borders=CLEARANCE,
    matches=(lugs, angle(ANGLE_WITHIN)),
)
"""Lugs equal, angle within 5 degrees, clearance 0.05 to 1.20 mm cold and not below 0 hot."""
