"""Every lamp and every wish of the demo book, each with some of the others: a fair sample."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from tests.support.demo import demo

from wickwright.answers import Routes, which_parts

if TYPE_CHECKING:
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route

__all__ = ["round_of_wishes"]

_STEP = 11
"""Each lamp is asked every so many-eth wish, one further on for the next lamp."""


@cache
def round_of_wishes(step: int = _STEP) -> tuple[tuple[Situation, Route], ...]:
    """Return the first route of each lamp's share of the wishes, at three elevations in turn.

    Wishes for more light are left out: saying why there is none takes many seconds.
    """
    compiled = demo()
    wishes = [key for key in compiled.book.wishes if "brighter" not in key]
    found = []
    for at, lamp in enumerate(compiled.book.lamps):
        for wish in wishes[at % step :: step]:
            answer = which_parts(compiled, lamp, wish, elevation=(0.0, 1700.0, -300.0)[at % 3])
            if isinstance(answer, Routes):
                found.append((answer.now, answer.routes[0]))
    return tuple(found)
