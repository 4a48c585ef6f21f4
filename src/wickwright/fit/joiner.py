"""How two parts join, each pair judged once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.classes import port_class
from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Half

if TYPE_CHECKING:
    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.classes import PortClass
    from wickwright.fit.joints.verdict import Joined
    from wickwright.fit.settings import Settings

__all__ = ["RANK", "Joiner"]

RANK = {fit: rank for rank, fit in enumerate(Fit)}
"""Verdicts from best to worst."""


class Joiner:
    """Judges pairs of parts of one book and remembers the verdicts.

    Parameters
    ----------
    settings : Settings
        Service temperatures.
    together : frozenset of pairs of PortClass
        Pairs that left the works joined: taken to fit where sizes cannot tell.
    """

    def __init__(
        self,
        settings: Settings,
        together: frozenset[tuple[PortClass, PortClass]] = frozenset(),
    ) -> None:
        self.settings, self.together = settings, together
        self._known: dict[tuple[str, str, str], tuple[Port, Joined] | None] = {}

    def best(self, below: Part, on: Port, above: Part) -> tuple[Port, Joined] | None:
        """Return the port by which a part stands best on another, and the verdict.

        Parameters
        ----------
        below, above : Part
            The carrying and the standing part.
        on : Port
            The carrying port.

        Returns
        -------
        tuple of Port and Joined, or None
            None when the part stands on nothing at all.
        """
        key = (below.id, on.name, above.id)
        if key not in self._known:
            judged = [(by, self.joined(below, on, above, by)) for by in above.stands]
            self._known[key] = min(judged, key=lambda pair: RANK[pair[1].fit], default=None)
        return self._known[key]

    def joined(self, below: Part, on: Port, above: Part, by: Port) -> Joined:
        """Judge one joint at its service temperatures.

        Parameters
        ----------
        below, above : Part
            The carrying and the standing part.
        on, by : Port
            Their halves of the joint.

        Returns
        -------
        Joined
            The verdict.
        """
        warmth = self.settings.warmth(on.joint)
        verdict = judge(Half(on, below.material), Half(by, above.material), warmth)
        if verdict.fit is Fit.UNKNOWN and self.together:
            pair = port_class(below, on), port_class(above, by)
            if pair in self.together:
                return verdict._replace(fit=Fit.FITS, why="sold")
        return verdict
