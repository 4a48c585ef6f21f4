"""Which parts fit this lamp, what must come along, and what to do when a part is gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.answers.flames.flame_lights import lights_at
from wickwright.answers.flames.standing_air import INDOORS, standing_place
from wickwright.catalogue.records import KINDS, Wish
from wickwright.catalogue.spelling import meant, spelled
from wickwright.fit.request import Claim, Request
from wickwright.fit.routes import routes
from wickwright.fit.shared import serving_all

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from wickwright.answers.flames.standing_air import RoomAir
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.routes import Answer
    from wickwright.fit.shared import Shared

__all__ = ["UnknownNameError", "request_of", "which_parts", "which_serve_all"]


class UnknownNameError(LookupError):
    """A lamp, part or wish that is not in the fit book; the message says what to do."""


def which_parts(
    compiled: Compiled,
    lamp: str,
    wish: str | Wish,
    *,
    have: Sequence[str] = (),
    lost: Sequence[str] = (),
    bare: bool = False,
    elevation: float | None = None,
    pressure: float | None = None,
    room: RoomAir = INDOORS,
    count: int = 1,
    budget: int | None = None,
    given_up: Sequence[Claim] = (),
) -> Answer:
    """Find every unbeaten route from what a caller has to what is wanted.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number.
    wish : str or Wish
        Name of a wish of the book, or one made up.
    have : sequence of str
        Parts on the lamp that it was not sold with.
    lost : sequence of str
        Parts or kinds that are broken or gone.
    bare : bool
        True when there is nothing but ``have``.
    elevation : float or None
        Where the lamp stands, above sea level [m]; None is sea level.
    pressure : float or None
        Read from a barometer there, in place of the standard atmosphere's [Pa].
    room : RoomAir
        The air of the room.
    count : int
        How many lamps are treated alike; stock must suffice for all.
    budget : int or None
        Most money for one lamp, in the smallest coin.
    given_up : sequence of Claim
        What the caller does without, of what an answer before said could be given up.

    Returns
    -------
    Answer
        ``Routes``, ``Impossible``, ``NotKnown`` or ``Gave``.

    Raises
    ------
    UnknownNameError
        When a name is not in the book.
    """
    request = request_of(
        compiled,
        lamp,
        wish,
        have,
        lost,
        bare=bare,
        elevation=elevation,
        pressure=pressure,
        count=count,
        budget=budget,
    )
    request = replace(request, given_up=tuple(given_up))
    return routes(compiled, request, lights_at(compiled, request.place, room))


def which_serve_all(
    compiled: Compiled,
    lamps: Sequence[str],
    wish: str | Wish,
    *,
    have: Sequence[str] = (),
    lost: Sequence[str] = (),
    bare: bool = False,
    elevation: float | None = None,
    pressure: float | None = None,
    room: RoomAir = INDOORS,
    count: int = 1,
    budget: int | None = None,
) -> Shared:
    """Say what serves every lamp it could be.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamps : sequence of str
        Model numbers.
    wish : str or Wish
        Name of a wish of the book, or one made up.
    have : sequence of str
        Parts on the lamp that it was not sold with, whichever lamp it is.
    lost : sequence of str
        Parts or kinds that are broken or gone.
    bare : bool
        True when there is nothing but ``have``.
    elevation, pressure, room
        As for :func:`which_parts`.
    count : int
        How many lamps are treated alike; stock must suffice for all.
    budget : int or None
        Most money for one lamp, in the smallest coin; what serves all must stay within it.

    Returns
    -------
    Shared
        Each lamp's answer, which are served alike, and what serves all.

    Raises
    ------
    UnknownNameError
        When a name is not in the book.
    """
    requests = [
        request_of(
            compiled,
            lamp,
            wish,
            have,
            lost,
            bare=bare,
            elevation=elevation,
            pressure=pressure,
            count=count,
            budget=budget,
        )
        for lamp in lamps
    ]
    place = standing_place(elevation, pressure)
    return serving_all(compiled, requests, lights_at(compiled, place, room))


def request_of(
    compiled: Compiled,
    lamp: str,
    wish: str | Wish,
    have: Sequence[str] = (),
    lost: Sequence[str] = (),
    *,
    bare: bool = False,
    elevation: float | None = None,
    pressure: float | None = None,
    count: int = 1,
    budget: int | None = None,
) -> Request:
    """Look up every name of a question.

    Parameters
    ----------
    compiled, lamp, wish, have, lost, bare, elevation, pressure, count, budget
        As for :func:`which_parts`.

    Returns
    -------
    Request
        For :func:`wickwright.fit.routes.routes`.

    Raises
    ------
    UnknownNameError
        When names are not in the book; the message has a line for each of them.
    ValueError
        When the place, the count or the budget is no figure anyone can mean.
    """
    place = standing_place(elevation, pressure)
    _check_figures(count, budget)
    book = compiled.book
    have, lost = _several(have), _several(lost)
    unknown: list[str] = []
    known_lamp = _known(lamp, book.lamps, "lamp", unknown)
    if isinstance(wish, str):
        known_wish = book.wishes.get(_known(wish, book.wishes, "wish", unknown))
    else:
        known_wish = wish
    request = Request(
        lamp=known_lamp,
        wish=known_wish or Wish("", "", ()),
        have=tuple(_known(part, book.parts, "part", unknown) for part in have),
        lost=tuple(
            _known(part, {*KINDS, *book.parts}, "part or kind of part", unknown) for part in lost
        ),
        bare=bare,
        place=place,
        count=count,
        budget=budget,
    )
    if unknown:
        raise UnknownNameError("\n".join(unknown))
    return request


def _several(names: Sequence[str]) -> Sequence[str]:
    """Take a single name for a list of one."""
    return (names,) if isinstance(names, str) else names


def _check_figures(count: int, budget: int | None) -> None:
    """Refuse figures nobody can mean."""
    if count < 1:
        msg = f"a count of {count} lamps is less than one: give how many lamps there are"
        raise ValueError(msg)
    if budget is not None and budget < 0:
        msg = f"a budget of {budget} is below zero: give it in the smallest coin, or leave it out"
        raise ValueError(msg)


def _known(name: str, among: Collection[str], what: str, unknown: list[str]) -> str:
    """Return the name as the book spells it, capitals disregarded; note it when it has none."""
    if found := spelled(name, among):
        return found
    listing = {"lamp": "lamps", "wish": "wishes"}.get(what, "parts")
    unknown.append(
        f"there is no {what} '{name}' in the fit book: {meant(name, among)}"
        f"'wickwright book list {listing}' lists them all"
    )
    return ""
