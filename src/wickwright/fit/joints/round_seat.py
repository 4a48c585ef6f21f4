"""A joint of a round hole and a round shaft: the frame most joints share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.fit.joints.grade import graded
from wickwright.fit.joints.heat import Heated, is_cold, warmed
from wickwright.fit.joints.label import by_label
from wickwright.fit.joints.match import compared
from wickwright.fit.joints.verdict import COLD, Joined

if TYPE_CHECKING:
    from wickwright.fit.joints.grade import Play
    from wickwright.fit.joints.match import Match
    from wickwright.fit.joints.verdict import Half, Warmth

__all__ = ["RoundSeat"]


@dataclass(frozen=True, slots=True)
class RoundSeat:
    """Rule of a joint with a diameter on both sides.

    Attributes
    ----------
    key, sketch, reads, source
        As in :class:`~wickwright.fit.joints.verdict.Joint`.
    borders : Play
        Clearances that fit, go with effort, are loose [m].
    matches : tuple of Match
        What else must be the same.
    over : bool
        True where the standing part goes over the carrying one, as a wick over its tube.
    hard : bool
        True where neither side yields, so that the gap must stay open when hot.
    """

    key: str
    sketch: str
    reads: tuple[str, ...]
    source: str
    borders: Play
    matches: tuple[Match, ...] = ()
    over: bool = False
    hard: bool = True

    def judge(self, carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:
        """Return the verdict for one pair of halves.

        Parameters
        ----------
        carrier, stander : Half
            The two sides.
        warmth : Warmth
            Their temperatures [K].

        Returns
        -------
        Joined
            A difference in words or numbers comes before everything; then a clearance that
            does not fit; then, where something is missing, the labels; then the clearance.
        """
        missing = compared(carrier.port, stander.port, self.matches)
        if isinstance(missing, Joined):
            return missing
        measured = self._measured(carrier, stander, warmth)
        if isinstance(measured, Joined):
            return by_label(measured, missing, carrier, stander) if missing else measured
        return by_label(None, measured + missing, carrier, stander)

    def _measured(self, carrier: Half, stander: Half, warmth: Warmth) -> Joined | tuple[str, ...]:
        """Return the verdict on the clearance, or which diameters are missing."""
        one = carrier.port.sizes.get("diameter")
        other = stander.port.sizes.get("diameter")
        if one is None or other is None:
            sides = (("carrier", one), ("stander", other))
            return tuple(f"{side} diameter" for side, size in sides if size is None)
        hole, shaft = (other, one) if self.over else (one, other)
        cold = graded(hole, shaft, self.borders)
        if not self.hard or is_cold(warmth):
            return cold
        below = Heated("carrier", one, carrier.material, warmth.carrier)
        above = Heated("stander", other, stander.material, warmth.stander)
        return warmed(cold, above, below) if self.over else warmed(cold, below, above)
