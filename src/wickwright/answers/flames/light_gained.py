"""How much more light a route gives, and than what."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.light import lights_of

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route

__all__ = ["Against", "LightGained", "light_gained"]


class Against(StrEnum):
    """What light is compared with."""

    BEFORE = "before"
    AS_SOLD = "as sold"


class LightGained(NamedTuple):
    """Light gained or lost.

    Attributes
    ----------
    points : int
        Light points, hundredths of a natural-log unit [-].
    against : Against
        What they are counted from.
    """

    points: int
    against: Against


def light_gained(book: Book, now: Situation, route: Route) -> LightGained:
    """Compare the light of a finished lamp with that of the lamp the caller knows.

    Parameters
    ----------
    book : Book
        The fit book.
    now : Situation
        The request, looked at.
    route : Route
        One way from here to there.

    Returns
    -------
    LightGained
        Against the lamp as it was; a lamp that came without a burner gave no light, and is
        compared with its model complete as sold.
    """
    if now.now.of_kind("burner"):
        return LightGained(route.light, Against.BEFORE)
    sold = [book.parts[part] for part in book.lamps[now.request.lamp].as_sold]
    finished = [it.part for it in route.assembly.walk()]
    before, after = lights_of([sold, finished], now.lights)
    if before is not None and after is not None:
        return LightGained(after - before, Against.AS_SOLD)
    points = sum(part.light for part in finished) - sum(part.light for part in sold)
    return LightGained(points, Against.AS_SOLD)
