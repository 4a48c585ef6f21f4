"""What is given once and holds for a whole call, as plain data beside what is said in it."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.room_air import RoomPlan
from wickwright.answers.worked_out import Circumstances
from wickwright.recognise.asking import Bought, Model
from wickwright.terms.units import ELEVATION_RANGE

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickwright.answers.plain.answers import Plain
    from wickwright.recognise.asking import Heard

__all__ = [
    "PLAIN_NAMES",
    "Changed",
    "Kept",
    "KeptFault",
    "given_once",
    "plain_changes",
    "plain_kept",
    "read_kept",
    "settled",
    "without_given_once",
]

_HOUR: Final = 3600.0


@dataclass(frozen=True, slots=True)
class Kept:
    """What was given once and holds for all of a call; None or empty where nothing was.

    Attributes
    ----------
    elevation : float or None
        Where the lamp stands [m].
    hours : float or None
        Burnt since it was filled [h].
    volume : float or None
        Of the room it burns in [m3].
    people : int or None
        Who sits in that room [-].
    change : float or None
        Air changes of that room [1/s].
    have, lost : tuple of str
        Parts on the lamp that were named; parts or kinds that are gone.
    wish : str
        What the caller wants, where the lamp is not known.
    lamps : tuple of str
        Models it is said to be one of.
    bought : int or None
        The year it was bought new.
    """

    elevation: float | None = None
    hours: float | None = None
    volume: float | None = None
    people: int | None = None
    change: float | None = None
    have: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()
    wish: str = ""
    lamps: tuple[str, ...] = ()
    bought: int | None = None

    @property
    def where(self) -> Circumstances:
        """Where and how the lamp burns."""
        room = None
        if self.volume is not None:
            people = 1 if self.people is None else self.people
            room = RoomPlan(volume=self.volume, people=people, change=self.change)
        return Circumstances(self.elevation, self.hours, room)


Value = float | str | tuple[str, ...] | None

PLAIN_NAMES: Final = {
    "elevation": "elevation_m",
    "hours": "hours",
    "volume": "room_m3",
    "people": "people",
    "change": "air_changes_per_hour",
    "have": "have",
    "lost": "lost",
    "wish": "wish",
    "lamps": "lamps",
    "bought": "bought",
}
"""By field of :class:`Kept`, its key in files and JSON."""

_BOUNDS: Final = {
    "elevation": ELEVATION_RANGE,
    "hours": (0.0, 1000.0),
    "volume": (0.5, 100_000.0),
    "people": (0, 1000),
    "change": (0.0, 100.0),
    "bought": (1800, 2200),
}
_WHOLE: Final = frozenset({"people", "bought"})
_LISTS: Final = frozenset({"have", "lost", "lamps"})


@dataclass(frozen=True, slots=True)
class Changed:
    """Something that was kept and is given otherwise now: its field of :class:`Kept`."""

    field: str
    was: Value
    now: Value


@dataclass(frozen=True, slots=True)
class KeptFault:
    """One entry of a kept call that cannot be read, and what mends it."""

    key: str
    what: str
    cure: str


def _alike(field: str, one: Value, other: Value) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return {name.lower() for name in one} == {name.lower() for name in other}
    if field == "change" and isinstance(one, float) and isinstance(other, float):
        return math.isclose(one, other, rel_tol=1e-6, abs_tol=1e-12)
    return one.lower() == other.lower() if _texts(one, other) else one == other  # type: ignore[union-attr]


def _texts(one: Value, other: Value) -> bool:
    return isinstance(one, str) and isinstance(other, str)


def settled(kept: Kept, asked: Kept) -> tuple[Kept, tuple[Changed, ...]]:
    """Lay what is given now over what was kept.

    Parameters
    ----------
    kept : Kept
        As the call's file has it.
    asked : Kept
        As it is given now.

    Returns
    -------
    tuple of (Kept, tuple of Changed)
        What is not given now holds as it was kept, and what is given otherwise holds as given.
    """
    changes: list[Changed] = []
    now = kept
    for field in PLAIN_NAMES:
        was, given = getattr(kept, field), getattr(asked, field)
        if given in (None, (), "") or _alike(field, was, given):
            continue
        now = replace(now, **{field: given})
        if was not in (None, (), ""):
            changes.append(Changed(field, was, given))
    return now, tuple(changes)


def given_once(kept: Kept) -> tuple[Heard, ...]:
    """Return what was given once about which lamp it is, as it is heard: each counts once."""
    found: list[Heard] = [Model(kept.lamps)] if kept.lamps else []
    return (*found, Bought(kept.bought)) if kept.bought is not None else tuple(found)


def without_given_once(heard: Sequence[Heard], kept: Kept) -> tuple[tuple[Heard, ...], Kept]:
    """Take what was given once out of what was said.

    Parameters
    ----------
    heard : sequence of Heard
        Of a call that was kept, oldest first.
    kept : Kept
        What else was kept with it.

    Returns
    -------
    tuple of (tuple of Heard, Kept)
        What was said of looks, and what was kept; of two models or years the last counts.
    """
    for one in heard:
        if isinstance(one, Model):
            kept = replace(kept, lamps=one.lamps)
        elif isinstance(one, Bought):
            kept = replace(kept, bought=one.year)
    return tuple(one for one in heard if not isinstance(one, Model | Bought)), kept


def _plain_value(field: str, value: Value) -> Plain:
    if field == "change" and isinstance(value, float):
        return round(value * _HOUR, 9)
    return list(value) if isinstance(value, tuple) else value


def plain_kept(kept: Kept) -> dict[str, Plain]:
    """Return what is kept as plain data; what was not given is left out."""
    return {
        PLAIN_NAMES[one.name]: _plain_value(one.name, getattr(kept, one.name))
        for one in fields(kept)
        if getattr(kept, one.name) not in (None, (), "")
    }


def plain_changes(changes: Sequence[Changed]) -> list[Plain]:
    """Return what is given otherwise than it was kept as plain data."""
    return [
        {
            "what": PLAIN_NAMES[one.field],
            "was": _plain_value(one.field, one.was),
            "now": _plain_value(one.field, one.now),
        }
        for one in changes
    ]


def _number(field: str, given: object) -> Value | KeptFault:
    key, (low, high) = PLAIN_NAMES[field], _BOUNDS[field]
    kinds = int if field in _WHOLE else (int, float)
    if isinstance(given, bool) or not isinstance(given, kinds) or not low <= given <= high:
        whole = "whole " if field in _WHOLE else ""
        cure = f"write a {whole}number from {low:g} to {high:g}, or leave it out"
        return KeptFault(key, f"{given!r} is none", cure)
    if field in _WHOLE:
        return given
    return float(given) / _HOUR if field == "change" else float(given)


def _read(field: str, given: object) -> Value | KeptFault:
    if field in _BOUNDS:
        return _number(field, given)
    key = PLAIN_NAMES[field]
    if field in _LISTS:
        if isinstance(given, list) and all(isinstance(one, str) for one in given):
            return tuple(given)
        return KeptFault(key, f"{given!r} is none", "write a list of names, or leave it out")
    if isinstance(given, str):
        return given
    return KeptFault(key, f"{given!r} is none", "write a name, or leave it out")


def read_kept(given: Mapping[str, object]) -> Kept | tuple[KeptFault, ...]:
    """Read what was kept with a call.

    Parameters
    ----------
    given : mapping
        As :func:`plain_kept` makes it, out of JSON; what is not there was not given.

    Returns
    -------
    Kept, or tuple of KeptFault
        Every fault where there is any.
    """
    read = {
        field: _read(field, given[key])
        for field, key in PLAIN_NAMES.items()
        if given.get(key) is not None
    }
    faults = tuple(one for one in read.values() if isinstance(one, KeptFault))
    return faults or replace(Kept(), **read)  # type: ignore[arg-type]
