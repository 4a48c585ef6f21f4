"""For which lamps a parcel is meant, where it is settled but the model is not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

from wickwright.answers.way_taken import buys
from wickwright.fit.routes import NotKnown, Routes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.sheet.call_sheet import Parcel, Sheet
    from wickwright.answers.sheet.memory import Memory
    from wickwright.catalogue.records import Lamp
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.recognise.guesses import Guess

__all__ = ["LEAST", "SURE_OF_MODEL", "Fitted", "Meant", "lamps_meant"]

SURE_OF_MODEL: Final = 0.9
"""Chance from which a model is named to the caller, drawn, and its figures given [-]: a
setting."""
LEAST: Final = 0.02
"""Chance below which a model is not spoken of by itself [-]: a setting."""


class Fitted(NamedTuple):
    """A lamp as it is, and as it is going to be."""

    now: Situation
    route: Route
    flame: RouteFlame


@dataclass(frozen=True, slots=True)
class Meant:
    """For which lamps a parcel is meant.

    Attributes
    ----------
    ways : tuple of Fitted
        One for each model that takes it, the likeliest first; at least one.
    lamps : tuple of Lamp
        Those models.
    others : tuple of Lamp
        Models the caller may have that would take something else.
    named : bool
        Whether the first is sure enough to be called the caller's.
    """

    ways: tuple[Fitted, ...]
    lamps: tuple[Lamp, ...]
    others: tuple[Lamp, ...] = ()
    named: bool = True


def lamps_meant(memory: Memory, worked: Sheet, parcel: Parcel) -> Meant:
    """Return for which lamps a parcel is meant.

    Parameters
    ----------
    memory : Memory
        The fit book.
    worked : Sheet
        The sheet, worked out.
    parcel : Parcel
        One of its parcels that has a route.

    Returns
    -------
    Meant
        One model where it is named or nearly sure, else each that may be the caller's and takes
        these very parts.

    Raises
    ------
    ValueError
        When the parcel has no route.
    """
    route = parcel.route
    if route is None:
        msg = "there is no way of this parcel: ask for one that has a route"
        raise ValueError(msg)
    lamps = memory.compiled.book.lamps
    own = Fitted(parcel.answer.now, route, parcel.flames.after[parcel.chosen])
    ways, others, named = [own], [], True
    for guess, chance in _models(worked):
        if guess.lamp == worked.lamp:
            named = chance >= SURE_OF_MODEL
            continue
        way = _way_of(memory, worked, parcel, guess)
        if way is None:
            others.append(lamps[guess.lamp])
        else:
            ways.append(way)
    kept = ways[:1] if named else ways
    models = tuple(lamps[way.now.request.lamp] for way in kept)
    return Meant(tuple(kept), models, tuple(others), named)


def _models(worked: Sheet) -> Iterator[tuple[Guess, float]]:
    """Yield the likeliest guess of each model that is likely enough, and the model's chance."""
    which = worked.which
    if which is None or which.recognition.beliefs is None:
        return
    chances = {which.asking.names[at]: chance for at, chance in which.recognition.lamps}
    first: dict[str, Guess] = {}
    for guess in which.likely(0.0, len(which.asking.guesses.all)):
        first.setdefault(guess.lamp, guess)
    for lamp, guess in first.items():
        if chances[lamp] >= LEAST or lamp == worked.lamp:
            yield guess, chances[lamp]


def _way_of(memory: Memory, worked: Sheet, parcel: Parcel, guess: Guess) -> Fitted | None:
    """Return how another lamp takes the same parts; None where it does not."""
    have = tuple(dict.fromkeys((*worked.said.have, *guess.foreign)))
    wish = parcel.answer.now.request.wish.id
    try:
        answer, flames = memory.answer(guess.lamp, wish, worked.said, have)
    except ValueError:
        return None
    found = answer.routes if isinstance(answer, Routes | NotKnown) else ()
    wanted = buys(parcel.routes[parcel.chosen])
    at = next((at for at, route in enumerate(found) if buys(route) == wanted), None)
    if at is None or isinstance(answer, NotKnown) is not isinstance(parcel.answer, NotKnown):
        return None
    return Fitted(answer.now, found[at], flames.after[at])
