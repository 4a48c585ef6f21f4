"""A mantle on its seat: a ring that takes it in, or a post that it goes over."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.joints.grade import play
from wickwright.fit.joints.match import word
from wickwright.fit.joints.round_seat import RoundSeat
from wickwright.fit.joints.verdict import COLD

if TYPE_CHECKING:
    from wickwright.fit.joints.verdict import Half, Joined, Warmth

__all__ = ["CLEARANCE", "MANTLE_SEAT", "MantleSeat"]

CLEARANCE = play(0.0, 0.60e-3, loose=0.60e-3)
"""Room between the mantle's ring and its seat [m]; 'assumption'."""

SKETCH = r"""
   ring seat (form ring or blank)        post (form post)
        .-"-.  mantle                        .-"-.  mantle
       /     \                              /     \
      |<- d ->|                            |<- d ->|
   |  |_______|  |                           |   |
   |<---- D ---->|                           |<D>|
   clearance = D - d                       clearance = d - D
   d  diameter: the mantle's ring, standing side (outside; on a post inside)
   D  diameter: the seat's bore or the post, carrying side
"""

_RING = RoundSeat(
    key="mantle",
    sketch=SKETCH,
    reads=("diameter", "form"),
    source="assumption",
    borders=CLEARANCE,
    matches=(word("form"),),
)
_POST = replace(_RING, over=True)


@dataclass(frozen=True, slots=True)
class MantleSeat:
    """Rule of the mantle: which of the two is the hole goes by ``form``."""

    key: str = _RING.key
    sketch: str = SKETCH
    reads: tuple[str, ...] = _RING.reads
    source: str = _RING.source

    def judge(self, carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:
        """Return the verdict for one pair of halves.

        Parameters
        ----------
        carrier, stander : Half
            The two sides. Form ``post`` on the carrying side means that the mantle goes over.
        warmth : Warmth
            Their temperatures [K].

        Returns
        -------
        Joined
            Form equal (left out where both are blank), clearance 0 to 0.60 mm, loose to 1.20 mm.
        """
        form = carrier.port.words.get("form", "").strip().casefold()
        return (_POST if form == "post" else _RING).judge(carrier, stander, warmth)


MANTLE_SEAT = MantleSeat()
"""The rule of the mantle."""
