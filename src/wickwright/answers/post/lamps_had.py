"""The caller's lamp in a letter, or the lamps it may be; and what of it is put aside."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.post.letter_parts import lamps_listed, listed
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from wickwright.answers.post.besides import Besides
    from wickwright.answers.post.one_of_these import Fitted
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.units import Units

__all__ = ["in_all", "lamps_had", "put_aside", "where_it_stands"]


def lamps_had(compiled: Compiled, now: Situation, besides: Besides, units: Units) -> str:
    """Say which lamp a caller has, or which it may be.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        The request, looked at.
    besides : Besides
        For which lamps the answer is.
    units : Units
        What to print in.

    Returns
    -------
    str
        What follows 'you have', with where it stands as far as that is known.
    """
    request, meant = now.request, besides.meant
    lamps = meant.lamps if meant else (compiled.book.lamps[request.lamp],)
    where = "" if besides.height else f" {where_it_stands(now, units)}"
    count = request.count
    if len(lamps) > 1:
        each = f"{count} lamps, each " if count > 1 else ""
        return f"{each}one of these lamps{where}: {lamps_listed(lamps)}; all of them take this"
    many = f"{count} lamps of the model" if count > 1 else "a"
    likely = "" if besides.named else ", as is likely"
    return f"{many} {lamps_listed(lamps)}{likely}{where}"


def where_it_stands(now: Situation, units: Units) -> str:
    """Say how high a lamp stands."""
    height = now.request.place.elevation
    return f"at {say(Quantity(height, Kind.ELEVATION), units)}" if height else "at sea level"


def put_aside(ways: Sequence[Fitted], *, numbered: bool = True) -> str:
    """Say what comes fitted in what is sent, and what is not used with it.

    Parameters
    ----------
    ways : sequence of Fitted
        Each lamp the parts may be for.
    numbered : bool
        Whether parts are named by number too, where it is the same part of every lamp.

    Returns
    -------
    str
        Sentences; blank where there is neither.
    """
    says = []
    routes = [one.route for one in ways]
    if comes := _named(routes, lambda route: route.included, numbered=numbered):
        says.append(f"Fitted in it come: {listed(comes)}.")
    if aside := _named(routes, lambda route: route.aside, numbered=numbered):
        says.append(f"Put aside, and do not use with the new parts: the old {listed(aside)}.")
    return " ".join(says)


def _named(
    routes: Sequence[Route], of: Callable[[Route], Sequence[Part]], *, numbered: bool
) -> list[str]:
    """Name parts by kind; by number too where every lamp has the same."""
    same = in_all(of(route) for route in routes)
    kinds = dict.fromkeys(part.kind for route in routes for part in of(route))
    ids = {part.kind: part.id for part in same}
    return [f"{kind} {ids[kind]}" if numbered and kind in ids else kind for kind in kinds]


def in_all(lists: Iterable[Sequence[Part]]) -> tuple[Part, ...]:
    """Return the parts that stand in every list, in the order of the first."""
    first, *more = lists
    return tuple(part for part in first if all(part in one for one in more))
