"""What can be computed about a complaint and so need not be asked."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.predict_burn import Burns, how_it_burns
from wickwright.answers.flames.room_air import RoomPlan, room_air
from wickwright.answers.flames.standing_air import standing_place
from wickwright.answers.words.wording import sentence
from wickwright.burn.checks import BurnError
from wickwright.burn.glass_stress import KNOWN_WITHIN, STRENGTH, glass_margins, seat_of
from wickwright.cause.case import Computed
from wickwright.fit.audit import audit, called
from wickwright.room.checks import RoomError
from wickwright.terms.finding import Kind, Quantity, Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.call_records import CallBook, Cause
    from wickwright.catalogue.records import Lamp
    from wickwright.fit.compiled import Compiled
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["CEILING", "FLOOR", "Circumstances", "worked_out"]

FLOOR, CEILING = 0.002, 0.98
"""Nothing worked out makes a cause less or more probable than this [-]: records err
(``assumption``)."""
_SLOPE: Final = 2.0
"""Logits a tolerance [-]: ``assumption``, to be set from closed cases."""
_SHORT, _SHORT_TOLERANCE = 0.06, 0.02
"""How much short of the height it needs a chimney is when the flame begins to show it, and its
tolerance [-]: ``assumption``."""
_USED, _USED_TOLERANCE = 0.85, 0.07
"""Share of a fill burnt at which a flame sinks, and its tolerance [-]: ``assumption``."""
_KINDS: Final = {
    "wrong-chimney": "chimney",
    "wrong-mantle": "mantle",
    "wrong-wick": "wick",
    "wrong-gallery": "gallery",
}
_WRONG = frozenset({"heat", "no-place", "twice", "oil-and-electric"})
"""Rules of the whole lamp that speak of a part that should not be on it."""


@dataclass(frozen=True, slots=True)
class Circumstances:
    """What is known of where and how the lamp burns; None where nobody has said.

    Attributes
    ----------
    elevation : float or None
        Above sea level [m].
    hours : float or None
        Burnt since it was filled to the line [h].
    room : RoomPlan or None
        The room it burns in.
    """

    elevation: float | None = None
    hours: float | None = None
    room: RoomPlan | None = None


@dataclass(frozen=True, slots=True)
class _Lamp:
    """The lamp in question, and what was worked out about it at large."""

    compiled: Compiled
    lamp: Lamp
    assembly: Assembly
    named: frozenset[str]
    where: Circumstances
    units: Units
    burns: Burns | None
    found: tuple[Finding, ...]


def _logistic(off: float) -> float:
    return 1.0 / (1.0 + math.exp(-_SLOPE * max(-30.0, min(30.0, off))))


def _thin_air(it: _Lamp) -> tuple[float, str] | None:
    """Compare the chimney with what its burner needs at this elevation."""
    burner, chimney = it.assembly.of_kind("burner"), it.assembly.of_kind("chimney")
    if it.where.elevation is None or burner is None or chimney is None:
        return None
    least, height = burner.part.least_chimney, chimney.part.height
    if not least or height is None:
        return None
    needed = standing_place(it.where.elevation).chimney_needed(least)
    where = say(Quantity(it.where.elevation, Kind.ELEVATION), it.units)
    short = say(Quantity(abs(needed - height), Kind.LENGTH), it.units)
    wants = say(Quantity(needed, Kind.LENGTH), it.units)
    if height < needed:
        because = f"your glass is {short} short for {where}: this burner needs {wants} there"
    else:
        because = f"your glass is tall enough for {where}: this burner needs {wants} there"
    return _logistic(((needed - height) / needed - _SHORT) / _SHORT_TOLERANCE), because


def _wrong(it: _Lamp, kind: str) -> tuple[float, str] | None:
    """Look whether the part of a kind belongs on this lamp."""
    parts = [*(one.part for one in it.assembly.walk()), *it.assembly.loose]
    part = next((one for one in parts if one.kind == kind), None)
    if part is None:
        return None
    against = [one for one in it.found if _speaks_against(one, part.id)]
    if against:
        return CEILING, sentence(against[0], it.units).says
    if part.id not in it.named:
        return None
    return FLOOR, f"the {kind} on it, {called(part)}, is one for this lamp"


def _speaks_against(finding: Finding, part: str) -> bool:
    """Say whether a part is the one that does not belong: what stands in a joint, not below."""
    if finding.rule in _WRONG:
        return finding.parts[0] == part
    joint = finding.rule.startswith("joint-") and finding.severity is Severity.FAULT
    return joint and finding.parts[-1] == part


def _hard_seat(it: _Lamp) -> tuple[float, str] | None:
    """Compare what the seat does to the glass with what glass in use stands."""
    seat = seat_of(it.assembly)
    if it.burns is None or seat is None:
        return None
    try:
        stress = glass_margins(it.burns.prediction, seat).of("seat")
    except KeyError:
        return None
    tension = say(Quantity(stress.tension, Kind.STRESS), it.units)
    stands = say(Quantity(STRENGTH, Kind.STRESS), it.units)
    because = f"the seat pulls the glass with {tension}; glass in use stands {stands}"
    off = math.log(max(stress.tension, 1.0) / STRENGTH) / math.log(KNOWN_WITHIN)
    return _logistic(off), f"{because} (assumed: {stress.assumed})"


def _low_fuel(it: _Lamp) -> tuple[float, str] | None:
    if it.where.hours is None or it.burns is None or not it.burns.prediction.hours:
        return None
    lasts = it.burns.prediction.hours
    used = it.where.hours / lasts
    because = (
        f"it has burned {it.where.hours:g} h since it was filled, and a fill lasts about "
        f"{lasts:.0f} h"
    )
    return _logistic((used - _USED) / _USED_TOLERANCE), because


def _tight_room(it: _Lamp) -> tuple[float, str] | None:
    if it.where.room is None or it.burns is None:
        return None
    try:
        answer = room_air(it.burns.prediction, it.where.room)
    except RoomError:
        return None
    worst = answer.findings[0]
    if worst.severity >= Severity.FAULT:
        return CEILING, sentence(worst, it.units).says
    return FLOOR, "the room is large enough and is aired enough for it"


def _of(it: _Lamp, computed: str) -> tuple[float, str] | None:
    if computed in _KINDS:
        return _wrong(it, _KINDS[computed])
    ways = {
        "thin-air": _thin_air,
        "hard-seat": _hard_seat,
        "low-fuel": _low_fuel,
        "tight-room": _tight_room,
    }
    return ways[computed](it)


def _burning(compiled: Compiled, assembly: Assembly, where: Circumstances) -> Burns | None:
    place = standing_place(where.elevation)
    try:
        found = how_it_burns(compiled, assembly, place, setting="mark")
    except BurnError:
        return None
    return found if isinstance(found, Burns) else None


def worked_out(
    compiled: Compiled,
    calls: CallBook,
    lamp: Lamp,
    assembly: Assembly,
    named: frozenset[str],
    where: Circumstances,
    units: Units,
) -> tuple[Computed, ...]:
    """Work out what can be worked out about the causes of a complaint.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    calls : CallBook
        Its call tables.
    lamp : Lamp
        The model.
    assembly : Assembly
        The lamp as it is, put together.
    named : frozenset of str
        Parts that were named or looked at, and are not only taken to be there.
    where : Circumstances
        Where and how it burns.
    units : Units
        For the reasons.

    Returns
    -------
    tuple of Computed
        One for each cause that something could be worked out about, with its reason. Where the
        data are missing there is none, and its signs are asked after.
    """
    causes = [cause for cause in calls.causes.values() if cause.computed]
    if not causes:
        return ()
    place = standing_place(where.elevation)
    it = _Lamp(
        compiled,
        lamp,
        assembly,
        named,
        where,
        units,
        _burning(compiled, assembly, where),
        audit(assembly, lamp, place, compiled.joiner),
    )
    return tuple(_each(it, causes))


def _each(it: _Lamp, causes: list[Cause]) -> Iterator[Computed]:
    for cause in causes:
        found = _of(it, cause.computed)
        if found is not None:
            chance, because = found
            yield Computed(cause.id, min(CEILING, max(FLOOR, chance)), because)
