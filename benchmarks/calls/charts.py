"""Flow charts on paper, one for each complaint: the same questions and acts whatever the lamp."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from wickwright.chance.evidence import YES
from wickwright.chance.next_question import gains

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from benchmarks.calls.policies import Desk

    from wickwright.chance.arrays import Floats

__all__ = ["BLANK", "LENGTH", "Chart", "chart"]

LENGTH = 10
"""Questions of a flow chart [-]."""


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart on paper.

    Attributes
    ----------
    questions : tuple of str
        Signs, in the order in which they are asked after.
    boxes : mapping of str to tuple of str
        What is done at once where a sign is there, in order, by sign.
    rest : tuple of str
        What is done when all has been asked and the lamp still burns badly, before the bench.
    """

    questions: tuple[str, ...]
    boxes: Mapping[str, tuple[str, ...]]
    rest: tuple[str, ...]


BLANK = Chart((), {}, ())

_Sum = defaultdict[str, float]


def _sum() -> _Sum:
    return defaultdict(float)


@dataclass(slots=True)
class _Sums:
    """Sums over the lamps that can have a complaint, by sign and remedy."""

    told: _Sum = field(default_factory=_sum)
    minutes: dict[str, float] = field(default_factory=dict)
    price: dict[str, float] = field(default_factory=dict)
    gone: _Sum = field(default_factory=_sum)
    gone_if: dict[str, _Sum] = field(default_factory=dict)
    seen: _Sum = field(default_factory=_sum)

    def add(self, share: float, at: Desk) -> None:
        """Add a lamp that so many of the callers have."""
        entry = np.append(at.acts.entry, 0.0)
        remedies = [one.id for one in at.known.remedies]
        self.price.update(zip(remedies, at.acts.cost + entry[at.acts.cluster], strict=True))
        self._count(self.gone, share, remedies, at.start.gone_after(at.acts))
        if at.questions is None:
            return
        told = gains(at.start.beliefs, at.questions)
        paid = at.questions.minutes + entry[at.questions.clusters]
        for place, sign in enumerate(at.known.signs):
            if place in at.dangers:
                continue
            yes = at.questions.rows[at.questions.starts[place] + YES]
            chance = float(yes @ at.start.beliefs.weights)
            self.told[sign.id] += share * float(told[place])
            self.minutes[sign.id] = float(paid[place])
            self.seen[sign.id] += share * chance
            gone = at.start.given(yes).gone_after(at.acts)
            box = self.gone_if.setdefault(sign.id, _sum())
            self._count(box, share * chance, remedies, gone)

    @staticmethod
    def _count(sums: _Sum, share: float, remedies: list[str], gone: Floats) -> None:
        for remedy, chance in zip(remedies, gone, strict=True):
            sums[remedy] += share * float(chance)

    def plan(self, gone: Mapping[str, float], hand_over: float) -> tuple[str, ...]:
        """Return remedies by chance over price, as many as are worth doing before the bench.

        The whole order is weighed at every length, one fault taken to be there (``heckerman1995``).
        """
        order = sorted(
            (one for one, chance in gone.items() if chance > 0.0),
            key=lambda one: -gone[one] / self.price[one],
        )
        left, spent, best, length = 1.0, 0.0, hand_over, 0
        for place, remedy in enumerate(order):
            spent += self.price[remedy] * left
            left = max(left - gone[remedy], 0.0)
            if spent + hand_over * left < best:
                best, length = spent + hand_over * left, place + 1
        return tuple(order[:length])


def chart(lamps: Iterable[tuple[float, Desk]], hand_over: float) -> Chart:
    """Write the chart of one complaint.

    Parameters
    ----------
    lamps : iterable of (float, Desk)
        Share of the callers with the complaint who have each lamp, and its desk.
    hand_over : float
        What a repair at the bench weighs [min].

    Returns
    -------
    Chart
        The ten questions that tell most by the minute over all the lamps together; at each yes
        the remedies that are worth trying for that yes alone; at the end those worth trying for
        the complaint alone.
    """
    sums, total = _Sums(), 0.0
    for share, at in lamps:
        sums.add(share, at)
        total += share
    order = sorted(sums.told, key=lambda sign: -sums.told[sign] / sums.minutes[sign])[:LENGTH]
    boxes = {
        sign: sums.plan(
            {r: gone / sums.seen[sign] for r, gone in sums.gone_if[sign].items()}, hand_over
        )
        for sign in order
        if sums.seen[sign] > 0.0
    }
    rest = sums.plan({r: gone / total for r, gone in sums.gone.items()}, hand_over) if total else ()
    return Chart(tuple(order), boxes, rest)
