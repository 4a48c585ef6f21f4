"""A call as the desk keeps it: what was said, by whom it is taken, and how it ended.

Everything a sheet shows follows from :class:`Said`, the fit book of the call's revision and
nothing else, so a call can be kept while it is typed, taken up at another desk, and any step of
it taken back. What belongs to a person (name, contact, address) stands apart in
:class:`Caller`, so that it can be erased without losing what the call teaches.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum
from typing import TYPE_CHECKING, Final, cast

if TYPE_CHECKING:
    from datetime import datetime

    from wickwright.answers.plain.answers import Plain

__all__ = [
    "UNSURE",
    "Call",
    "CallLine",
    "CallState",
    "Caller",
    "Closing",
    "Given",
    "Photo",
    "Said",
    "SaidError",
    "Trace",
    "changed_fields",
    "plain_said",
    "read_said",
    "said_with",
]

UNSURE: Final = "don't know"
"""The answer of a caller who does not know."""


class CallState(StrEnum):
    """Where a call stands."""

    OPEN = "open"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class Caller:
    """Who called; all of it can be erased on request.

    Attributes
    ----------
    name : str
        As given.
    contact : str
        A telephone number or an address for mail.
    address : str
        Where a parcel goes.
    """

    name: str = ""
    contact: str = ""
    address: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """What stands on a call sheet; everything else is computed from it.

    Attributes
    ----------
    words : str
        What the caller says, in the caller's own words.
    wish : str
        Key of the wish that was chosen; blank where none is.
    complaint : str
        Key of the complaint that was chosen; blank where none is.
    place : str
        Where the lamp stands, as typed.
    elevation : float or None
        Of that place [m].
    lamp : str
        Model number where it is known; blank where it is to be found out.
    heard : tuple of Plain
        What was seen of the lamp, as :func:`wickwright.answers.plain.lamps.plain_heard` writes it.
    have : tuple of str
        Parts on the lamp that it was not sold with.
    lost : tuple of str
        Parts or kinds that are broken or gone.
    bare : bool
        True when there is nothing but ``have``.
    looked_over : bool
        True once the caller was asked what is missing.
    count : int
        Lamps treated alike [-].
    hours : float or None
        Burnt since the font was filled [h].
    room : float or None
        Volume of the room [m³].
    people : int
        In the room [-].
    events : tuple of Plain
        What was asked and done about the complaint, as
        :func:`wickwright.answers.plain.cases.plain_events` writes it.
    given_up : tuple of str
        What the caller does without, as :func:`.given_up.claim_text` writes it.
    route : tuple of str
        Numbers of the parts bought by the route that was chosen; empty is the best.
    reply : str
        The letter to the caller as it was edited; blank is as computed.
    reply_from : str
        Which computed letter it was edited from, as
        :func:`wickwright.answers.post.edited_letter.letter_mark` names it.
    overruled : str
        Why something is sent though it is not settled which lamp it is; blank where it is not.
    overruled_for : str
        For what it was overruled, as :func:`.held_back.what_is_sent` names it.
    note : str
        For the next adviser.
    """

    words: str = ""
    wish: str = ""
    complaint: str = ""
    place: str = ""
    elevation: float | None = None
    lamp: str = ""
    heard: tuple[Plain, ...] = ()
    have: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()
    bare: bool = False
    looked_over: bool = False
    count: int = 1
    hours: float | None = None
    room: float | None = None
    people: int = 0
    events: tuple[Plain, ...] = ()
    given_up: tuple[str, ...] = ()
    route: tuple[str, ...] = ()
    reply: str = ""
    reply_from: str = ""
    overruled: str = ""
    overruled_for: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Closing:
    """How a call ended.

    Attributes
    ----------
    outcome : str
        A word of :class:`wickwright.cause.case.Outcome` or ``sent``, ``sent to the bench``,
        ``came back``, ``nothing to do``.
    causes : tuple of str
        What was wrong, as far as it is known.
    confirmed : str
        A word of :class:`wickwright.cause.closed.Confirmed`.
    note : str
        Anything else.
    """

    outcome: str
    causes: tuple[str, ...] = ()
    confirmed: str = "not confirmed"
    note: str = ""


@dataclass(frozen=True, slots=True)
class Call:
    """A call as it stands.

    Attributes
    ----------
    number : int
        By which it is found again; counted from 1.
    version : int
        Goes up by one with every change.
    state : CallState
        Open or closed.
    desk : str
        Where it lies.
    adviser : str
        Who changed it last.
    opened, changed : datetime
        In UTC.
    revision : str
        Fit book under which its answers are given.
    caller : Caller
        Who called.
    said : Said
        What stands on the sheet.
    closing : Closing or None
        How it ended.
    """

    number: int
    version: int
    state: CallState
    desk: str
    adviser: str
    opened: datetime
    changed: datetime
    revision: str
    caller: Caller
    said: Said
    closing: Closing | None = None


@dataclass(frozen=True, slots=True)
class CallLine:
    """A call in a list.

    Attributes
    ----------
    number, state, desk, adviser, opened, changed
        As of :class:`Call`.
    caller : str
        Name.
    words : str
        What the caller said.
    lamp : str
        Model number.
    """

    number: int
    state: CallState
    desk: str
    adviser: str
    opened: datetime
    changed: datetime
    caller: str
    words: str
    lamp: str


@dataclass(frozen=True, slots=True)
class Trace:
    """One step of a call's trail; it holds no name or address of a caller.

    Attributes
    ----------
    version : int
        Of the call after it.
    at : datetime
        In UTC.
    who : str
        Which adviser.
    did : str
        ``begun``, ``said``, ``caller``, ``handed over``, ``moved``, ``closed``,
        ``opened again``, ``taken back``, ``erased``; ``photo`` and ``given`` leave the version.
    before, after : dict
        The fields that changed, as plain data: of :class:`Said`, of :class:`Closing` where
        the call was closed or opened again, ``desk`` or ``revision``.
    note : str
        In words, where there is more to say.
    """

    version: int
    at: datetime
    who: str
    did: str
    before: dict[str, Plain]
    after: dict[str, Plain]
    note: str = ""


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph attached to a call; its bytes are fetched by its number.

    Attributes
    ----------
    number : int
        Of the photograph.
    call : int
        Whose it is.
    at : datetime
        When it was attached, in UTC.
    who : str
        By whom.
    media : str
        ``image/jpeg``, ``image/png`` or ``image/webp``.
    size : int
        Bytes [-].
    says : str
        What it shows.
    """

    number: int
    call: int
    at: datetime
    who: str
    media: str
    size: int
    says: str


@dataclass(frozen=True, slots=True)
class Given:
    """An answer as it went out, kept word for word.

    Attributes
    ----------
    number : int
        Of the answer.
    call : int
        Whose it is.
    version : int
        Of the call when it was given.
    at : datetime
        In UTC.
    who : str
        By whom.
    what : str
        ``order``, ``reply`` or ``fit sheet``.
    revision : str
        Fit book under which it was given.
    answer : dict
        The answer as plain data.
    """

    number: int
    call: int
    version: int
    at: datetime
    who: str
    what: str
    revision: str
    answer: dict[str, Plain]


# -- plain ---------------------------------------------------------------------------------------

_LISTS: Final = frozenset({"heard", "have", "lost", "events", "given_up", "route"})
_WORDS: Final = frozenset({"have", "lost", "given_up", "route"})
_WHOLE: Final = frozenset({"count", "people"})
_FIGURES: Final = frozenset({"elevation", "hours", "room"})
_FLAGS: Final = frozenset({"bare", "looked_over"})
_WANTED: Final = {
    **dict.fromkeys(_FLAGS, "yes or no"),
    "count": "a whole number",
    "people": "a whole number",
}


class SaidError(ValueError):
    """What should stand on a sheet is no such thing; a line for each fault."""


def plain_said(said: Said) -> dict[str, Plain]:
    """Return what stands on a sheet as plain data, each field by its name.

    Parameters
    ----------
    said : Said
        Of a call.

    Returns
    -------
    dict
        For JSON; :func:`read_said` gives an equal record back.
    """
    found: dict[str, Plain] = {}
    for one in fields(said):
        value = getattr(said, one.name)
        found[one.name] = list(value) if one.name in _LISTS else value
    return found


def read_said(given: dict[str, Plain]) -> Said:
    """Read what stands on a sheet.

    Parameters
    ----------
    given : dict
        As :func:`plain_said` writes it; what is missing is as on an empty sheet.

    Returns
    -------
    Said
        The record.

    Raises
    ------
    SaidError
        When a field is unknown or of the wrong kind; every fault in a line.
    """
    names = {one.name for one in fields(Said)}
    faults = [f"there is no field '{name}' on a sheet" for name in given if name not in names]
    found: dict[str, object] = {}
    for name in names & given.keys():
        try:
            found[name] = _read(name, given[name])
        except SaidError as error:
            faults.append(str(error))
    if faults:
        raise SaidError("\n".join(sorted(faults)))
    return Said(**found)  # type: ignore[arg-type]


def _read(name: str, value: Plain) -> object:
    if name in _LISTS:
        return _list(name, value)
    if name in _FIGURES:
        if value is None or (isinstance(value, int | float) and not isinstance(value, bool)):
            return None if value is None else float(value)
        raise SaidError(_wrong(name, value, "a number or nothing"))
    if not _is_right(name, value):
        raise SaidError(_wrong(name, value, _WANTED.get(name, "text")))
    return value


def _is_right(name: str, value: Plain) -> bool:
    if name in _FLAGS:
        return isinstance(value, bool)
    if name in _WHOLE:
        return isinstance(value, int) and not isinstance(value, bool)
    return isinstance(value, str)


def _list(name: str, value: Plain) -> tuple[Plain, ...]:
    if not isinstance(value, list):
        raise SaidError(_wrong(name, value, "a list"))
    if name in _WORDS and not all(isinstance(one, str) for one in value):
        raise SaidError(_wrong(name, value, "a list of texts"))
    return tuple(value)


def _wrong(name: str, value: Plain, wanted: str) -> str:
    return f"'{name}' is {value!r}: it has to be {wanted}"


def changed_fields(before: Said, after: Said) -> tuple[dict[str, Plain], dict[str, Plain]]:
    """Return the fields that differ, as plain data.

    Parameters
    ----------
    before, after : Said
        Two states of a sheet.

    Returns
    -------
    tuple of dict, and dict
        What they were and what they are, by field.
    """
    old, new = plain_said(before), plain_said(after)
    names = [name for name in old if old[name] != new[name]]
    return {name: old[name] for name in names}, {name: new[name] for name in names}


def said_with(said: Said, changes: dict[str, Plain]) -> Said:
    """Return a sheet with some fields as given.

    Parameters
    ----------
    said : Said
        Of a call.
    changes : dict
        Fields by name.

    Returns
    -------
    Said
        The rest is as it was.

    Raises
    ------
    SaidError
        As :func:`read_said`.
    """
    return read_said(cast("dict[str, Plain]", {**plain_said(said), **changes}))
