"""A wick on its tubes: a round one goes over the tube, a flat one lies in a slot."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.joints.grade import play
from wickwright.fit.joints.match import word
from wickwright.fit.joints.round_seat import RoundSeat
from wickwright.fit.joints.verdict import COLD

if TYPE_CHECKING:
    from wickwright.fit.joints.verdict import Half, Joined, Warmth

__all__ = ["FLAT_CLEARANCE", "ROUND_CLEARANCE", "WICK_TUBE", "WickTube"]

ROUND_CLEARANCE = play(-0.80e-3, 0.50e-3, effort=0.70e-3, loose=1.00e-3)
"""Inside of the wick less outside of the tube [m]; 'assumption'.

Fabric stretches, so below 0 is right, and down to -1.50 mm it goes on with effort. Above
0.50 mm it slides; above 1.50 mm the raiser no longer takes it along.
"""

FLAT_CLEARANCE = play(-0.50e-3, 1.50e-3, loose=0.50e-3)
"""Width of the slot less width of the wick [m]; 'assumption'.

The same widths as for a round wick are taken (wick less slot from -1.50 to 0.50 mm), but here
the narrow wick is the loose one.
"""

SKETCH = r"""
   round                          flat
   |  |<--- d --->|  |            |<------- d ------->|
   |  |           |  | wick        ===================  wick
   |  | |<- D ->| |  |            |<------- D ------->|
      | |       | |               [___________________] slot
      | | tube  | |
   clearance = d - D              clearance = D - d
   d  diameter: inside of the wick (flat: its width), standing side
   D  diameter: outside of the tube (flat: width of the slot), carrying side
   form round or flat
"""

_ROUND = RoundSeat(
    key="wick",
    sketch=SKETCH,
    reads=("diameter", "form"),
    source="assumption",
    borders=ROUND_CLEARANCE,
    matches=(word("form"),),
    over=True,
    hard=False,
)
_FLAT = replace(_ROUND, borders=FLAT_CLEARANCE, over=False)


@dataclass(frozen=True, slots=True)
class WickTube:
    """Rule of the wick: which of the two is the hole goes by ``form``."""

    key: str = _ROUND.key
    sketch: str = SKETCH
    reads: tuple[str, ...] = _ROUND.reads
    source: str = _ROUND.source

    def judge(self, carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:
        """Return the verdict for one pair of halves.

        Parameters
        ----------
        carrier, stander : Half
            Tube or slot, and wick. Form ``flat`` on the carrying side means a slot; blank
            on both sides is taken as round.
        warmth : Warmth
            Their temperatures [K]; fabric yields, so the gap is not judged hot.

        Returns
        -------
        Joined
            Form equal; round: wick less tube -0.80 to 0.50 mm, with effort from -1.50 mm,
            loose to 1.50 mm; flat: slot less wick -0.50 to 1.50 mm, loose to 2.00 mm.
        """
        form = carrier.port.words.get("form", "").strip().casefold()
        return (_FLAT if form == "flat" else _ROUND).judge(carrier, stander, warmth)


WICK_TUBE = WickTube()
"""The rule of the wick."""
