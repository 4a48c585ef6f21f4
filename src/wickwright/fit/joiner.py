"""How two parts join, each pair judged once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Half

if TYPE_CHECKING:
    from wickwright.catalogue.records import Part, Port
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
    """

    def __init__(self, settings: Settings) -> None:
        self.settings = settings
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
        return judge(Half(on, below.material), Half(by, above.material), warmth)
