"""A call about an unknown lamp as plain data, to be written down, sent and taken up again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.plain.cases import CaseFault
from wickwright.catalogue.cells import CellError, parse_length
from wickwright.catalogue.spelling import meant
from wickwright.recognise.asking import Bought, Measured, Model, Saw, Unsure
from wickwright.terms.dimension import DimensionError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.which_lamp import WhichLamp
    from wickwright.recognise.asking import Asking, Heard
    from wickwright.recognise.looks import Sight

__all__ = ["length_heard", "plain_heard", "plain_recognition", "read_heard"]

_UNSURE = "don't know"
_LONGEST = 10.0
"""No lamp that a caller measures is longer than this [m]."""
_FIRST_YEAR, _LAST_YEAR = 1800, 2200
"""Years a lamp can have been bought in."""


def plain_heard(heard: Sequence[Heard]) -> list[Plain]:
    """Return what was said as plain data, one object for each."""
    return [_plain(one) for one in heard]


def _plain(one: Heard) -> Plain:
    match one:
        case Saw(look, value):
            return {"look": look, "value": value}
        case Measured(look, length):
            return {"look": look, "length_m": length}
        case Unsure(look):
            return {"look": look, "value": _UNSURE}
        case Model(lamps):
            return {"lamps": list(lamps)}
        case Bought(year):
            return {"bought": year}


def length_heard(text: str) -> float | None:
    """Return a length a caller reads off a rule [m]; None where it is none.

    Parameters
    ----------
    text : str
        Such as ``'31 cm'``, ``'310 mm'`` or ``'12 1/4 in'``.

    Returns
    -------
    float or None
        The length [m].
    """
    number = text.strip().lower()
    try:
        if number.endswith("cm"):
            found = float(number.removesuffix("cm").replace(",", ".")) / 100.0
        else:
            found = parse_length(number).nominal
    except (CellError, DimensionError, ValueError):
        return None
    return found if 0.0 < found <= _LONGEST else None


def _at_look(
    asking: Asking, look: object, value: object, at: int, faults: list[CaseFault]
) -> Heard | None:
    names = [sight.look.id for sight in asking.sights]
    if not isinstance(look, str) or look not in names:
        cure = f"{meant(str(look), names)}'wickwright book list looks' names them"
        faults.append(CaseFault(at, f"there is no look {look!r}", cure))
        return None
    if value == _UNSURE:
        return Unsure(look)
    sight = asking.sight(look)
    if sight.is_measured:
        return _length(sight, value, at, faults)
    if not isinstance(value, str) or value not in sight.answers:
        cure = f"{meant(str(value), sight.answers)}it has: {'; '.join(sight.answers)}; {_UNSURE}"
        faults.append(CaseFault(at, f"the look '{look}' has no answer {value!r}", cure))
        return None
    return Saw(look, value)


def _length(sight: Sight, value: object, at: int, faults: list[CaseFault]) -> Heard | None:
    length = length_heard(value) if isinstance(value, str) else None
    if length is None:
        cure = "write a length with its unit, such as 31 cm or 12 1/4 in"
        faults.append(CaseFault(at, f"{value!r} is no length", cure))
        return None
    return Measured(sight.look.id, length)


def _one(asking: Asking, given: object, at: int, faults: list[CaseFault]) -> Heard | None:
    match given:
        case {"look": str(look), "length_m": float(length)} if 0.0 < length <= _LONGEST:
            if asking.has(look) and asking.sight(look).is_measured:
                return Measured(look, length)
            return _at_look(asking, look, "", at, faults)
        case {"look": look, "value": value}:
            return _at_look(asking, look, value, at, faults)
        case {"lamps": list(lamps)} if all(isinstance(lamp, str) for lamp in lamps):
            unknown = [lamp for lamp in lamps if lamp not in asking.names]
            for lamp in unknown:
                cure = f"{meant(lamp, asking.names)}'wickwright book list lamps' names them"
                faults.append(CaseFault(at, f"there is no lamp '{lamp}'", cure))
            return None if unknown else Model(tuple(lamps))
        case {"bought": int(year)} if _FIRST_YEAR <= year <= _LAST_YEAR:
            return Bought(year)
    cure = 'write {"look": ..., "value": ...}, {"lamps": [...]} or {"bought": 1931}'
    faults.append(CaseFault(at, "it is nothing a caller says", cure))
    return None


def read_heard(given: object, asking: Asking) -> tuple[Heard, ...] | tuple[CaseFault, ...]:
    """Read what a caller said.

    Parameters
    ----------
    given : object
        A list as :func:`plain_heard` makes it, out of JSON.
    asking : Asking
        What can be asked.

    Returns
    -------
    tuple of Heard, or tuple of CaseFault
        Every fault where there is any.
    """
    if not isinstance(given, list):
        return (CaseFault(0, "it is no list", "write a list in square brackets"),)
    faults: list[CaseFault] = []
    found = [_one(asking, one, at, faults) for at, one in enumerate(given, 1)]
    return tuple(faults) if faults else tuple(one for one in found if one is not None)


def plain_recognition(call: WhichLamp, most: int = 8) -> dict[str, Plain]:
    """Return what a call comes to as plain data: the next look, and all that led to it.

    Parameters
    ----------
    call : WhichLamp
        The call as it stands.
    most : int
        How many lamps, parcels and looks to tell.

    Returns
    -------
    dict
        Keys as in ``docs/json.md``.
    """
    found, asking = call.recognition, call.asking
    return {
        "wish": call.wish or None,
        "heard": plain_heard(call.heard),
        "stop": found.stop.value if found.stop else None,
        "lamps": [
            {"lamp": asking.names[place], "chance": round(chance, 3)}
            for place, chance in found.lamps[:most]
        ],
        "parcels": [
            {"send": list(parcel), "chance": round(chance, 3)}
            for parcel, chance in call.parcels()[:most]
        ],
        "looks": [
            {
                "look": one.look,
                "question": asking.sight(one.look).look.question,
                "answers": [*asking.sight(one.look).answers, _UNSURE],
                "measured": asking.sight(one.look).is_measured,
                "tells_bits": round(one.tells, 3),
                "apart": list(one.apart),
            }
            for one in found.looks[:most]
        ],
        "clash": plain_heard(found.clash),
    }
