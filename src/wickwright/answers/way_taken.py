"""Which of the ways of a remedy was bought, when it was done."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.cause.case import Act
from wickwright.fit.routes import Routes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickwright.cause.case import Event
    from wickwright.fit.routes import Answer, Route

__all__ = ["NoSuchWayError", "buys", "way_taken", "without_bought"]


class NoSuchWayError(ValueError):
    """What is said to have been bought for a remedy is none of its ways."""


def buys(route: Route) -> tuple[str, ...]:
    """Return what a way buys: the numbers of its parts, sorted."""
    return tuple(sorted(part.id for part in route.buy))


def way_taken(act: Act, answer: Answer) -> Route | None:
    """Return the way whose parts were put on.

    Parameters
    ----------
    act : Act
        What was done.
    answer : Answer
        The ways there were to do it.

    Returns
    -------
    Route or None
        The cheapest where nothing is said of what was bought; None where there is no way.

    Raises
    ------
    NoSuchWayError
        When parts are named that no way buys; the ways there are.
    """
    ways = answer.routes if isinstance(answer, Routes) else ()
    if not act.bought:
        return next(iter(ways), None)
    wanted = sorted(one.casefold() for one in act.bought)
    for way in ways:
        if sorted(part.id.casefold() for part in way.buy) == wanted:
            return way
    known = "; ".join(", ".join(part.id for part in way.buy) or "nothing" for way in ways)
    msg = (
        f"no way of '{act.remedy}' buys {', '.join(act.bought)}: name all that was bought for it, "
        f"which can be {known or 'nothing'}"
    )
    raise NoSuchWayError(msg)


def without_bought(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return what was said and done without what was bought: each remedy in its cheapest way."""
    return tuple(replace(one, bought=()) if isinstance(one, Act) else one for one in events)
