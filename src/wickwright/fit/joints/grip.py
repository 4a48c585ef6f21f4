"""A joint of springs or arms that take any size within a capture range."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.fit.clearance import Gap
from wickwright.fit.joints.grade import Play, cold_verdict
from wickwright.fit.joints.label import by_label
from wickwright.fit.joints.match import compared
from wickwright.fit.joints.verdict import COLD, Fit, Joined

if TYPE_CHECKING:
    from wickwright.fit.joints.match import Match
    from wickwright.fit.joints.verdict import Half, Warmth
    from wickwright.terms.dimension import Dimension

__all__ = ["Grip"]


@dataclass(frozen=True, slots=True)
class Grip:
    """Rule of a joint that captures a range of sizes.

    The clearance is reckoned from the widest size captured: 0 for a part at the wide end,
    the width of the range for one at the narrow end. Only the standing part's tolerance
    counts, so the likely interval is the worst case. Springs and arms take up growth with
    heat; the joint is not judged hot.

    Attributes
    ----------
    key, sketch, reads, source
        As in :class:`~wickwright.fit.joints.verdict.Joint`.
    effort, loose : float
        How far over and under the range the part may be [m].
    matches : tuple of Match
        What else must be the same.
    """

    key: str
    sketch: str
    reads: tuple[str, ...]
    source: str
    effort: float = 0.0
    loose: float = 0.0
    matches: tuple[Match, ...] = ()

    def judge(self, carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:  # noqa: ARG002 - springs take up the growth
        """Return the verdict for one pair of halves.

        Parameters
        ----------
        carrier, stander : Half
            The two sides.
        warmth : Warmth
            Their temperatures [K]; not used, see above.

        Returns
        -------
        Joined
            In the order of :meth:`~wickwright.fit.joints.round_seat.RoundSeat.judge`.
        """
        missing = compared(carrier.port, stander.port, self.matches)
        if isinstance(missing, Joined):
            return missing
        range_ = carrier.port.sizes.get("capture")
        size = stander.port.sizes.get("diameter")
        if range_ is None or size is None:
            sides = (("carrier capture", range_), ("stander diameter", size))
            lacks = tuple(name for name, value in sides if value is None)
            return by_label(None, lacks + missing, carrier, stander)
        measured = self._captured(range_, size)
        return by_label(measured, missing, carrier, stander) if missing else measured

    def _captured(self, range_: Dimension, size: Dimension) -> Joined:
        width = range_.high - range_.low
        permitted = Gap(0.0, width)
        gap = Gap(range_.high - size.high, range_.high - size.low)
        borders = Play(permitted, -self.effort, width + self.loose)
        fit, why = cold_verdict(gap.low, gap.high, borders)
        if fit is Fit.FITS:
            why = "clearance"
        missing = ("stander diameter",) if fit is Fit.UNKNOWN else ()
        return Joined(fit, why, gap, gap, None, permitted, missing=missing)
