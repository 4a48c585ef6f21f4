"""The numbers each rule permits, as they are in force, with where each comes from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.fit.compiled import GLASSY, HEATED, heat_of
from wickwright.fit.joints import (
    JOINTS,
    fitter,
    mantle_seat,
    plain_foot,
    quarter_turn,
    rest,
    thread,
    wick_tube,
)
from wickwright.fit.joints.round_seat import RoundSeat
from wickwright.fit.place import SEA_LEVEL_PRESSURE
from wickwright.fit.rules import rule_key
from wickwright.terms.finding import Kind, Quantity, Range

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from wickwright.catalogue.records import Book, Part
    from wickwright.fit.joints.grade import Play
    from wickwright.fit.settings import Settings
    from wickwright.terms.finding import Fact

__all__ = ["InForce", "limits_in_force"]


@dataclass(frozen=True, slots=True)
class InForce:
    """One number a rule holds something to.

    Attributes
    ----------
    says : str
        What it is, in words.
    value : Fact
        The number, the range, or what it is taken from.
    source : str
        Key of the bibliography.
    """

    says: str
    value: Fact
    source: str


def limits_in_force(key: str, settings: Settings, book: Book | None = None) -> tuple[InForce, ...]:
    """Return the numbers of one rule.

    Parameters
    ----------
    key : str
        Key of the rule.
    settings : Settings
        What a support lead has set.
    book : Book or None
        The fit book, for the numbers that stand in it; None leaves them out.

    Returns
    -------
    tuple of InForce
        Empty for a rule without numbers, such as that every part has a place.
    """
    key = _SAME.get(key, key)
    joint = key.removeprefix("joint-")
    if joint in JOINTS and key == rule_key(joint):
        return (*_of_joint(joint, settings), *(_of_ports(joint, book) if book else ()))
    match key:
        case "tips":
            return tuple(_of_balance(settings))
        case "heat":
            return tuple(_of_heat(book)) if book else ()
        case "draft":
            return tuple(_of_draft(book))
        case _:
            return tuple(_of_flame_and_room(key))


_SAME = {
    "stands": "tips",
    "unweighed": "tips",
    "tips-as-ordered": "tips",
    "heat-unknown": "heat",
    "not-heat-rated": "heat",
    "rated": "heat",
    "burn-glass-heat": "heat",
    "draft-unknown": "draft",
    "wrong-for-place": "draft",
    "over-limit": "joint-lampholder",
    "room-closed": "room-co2",
    "room-open-enough": "room-co2",
    "above-clear": "above-near",
    "beside-near": "above-near",
    "beside-clear": "above-near",
}
"""Rules that hold something to the numbers of another rule."""


# -- joints ----------------------------------------------------------------------------------

_PLAYS: dict[str, tuple[tuple[str, Play], ...]] = {
    "thread": (("", thread.CLEARANCE),),
    "quarter-turn": (("", quarter_turn.CLEARANCE),),
    "wick": (
        ("round wick, wick less tube: ", wick_tube.ROUND_CLEARANCE),
        ("flat wick, slot less wick: ", wick_tube.FLAT_CLEARANCE),
    ),
    "mantle": (("", mantle_seat.CLEARANCE),),
    "fitter": (("", fitter.CLEARANCE),),
    "rest": (("", rest.CLEARANCE),),
}
_MORE: dict[str, tuple[tuple[str, Quantity], ...]] = {
    "thread": (("pitches may differ by", Quantity(thread.PITCH_SHARE, Kind.RATIO)),),
    "quarter-turn": (
        ("angles of the turn may differ by", Quantity(quarter_turn.ANGLE_WITHIN, Kind.ANGLE)),
    ),
    "plain-foot": (
        ("with effort, over the range by", Quantity(plain_foot.OVER, Kind.LENGTH)),
        ("loose, under the range by", Quantity(plain_foot.UNDER, Kind.LENGTH)),
    ),
}


def _of_joint(joint: str, settings: Settings) -> Iterator[InForce]:
    source = JOINTS[joint].source
    for what, borders in _PLAYS.get(joint, ()):
        yield from _of_play(what, borders, source)
    for says, value in _MORE.get(joint, ()):
        yield InForce(says, value, source)
    rule = JOINTS[joint]
    if joint in settings.warm and isinstance(rule, RoundSeat) and rule.hard:
        warmth = settings.warm[joint]
        yield InForce("room hot, at its least", Range(0.0, None, Kind.LENGTH), source)
        for side, kelvin in (("carrying", warmth.carrier), ("standing", warmth.stander)):
            says = f"temperature in service, {side} side"
            yield InForce(says, Quantity(kelvin, Kind.TEMPERATURE), "assumption")


def _of_play(what: str, borders: Play, source: str) -> Iterator[InForce]:
    low, high = borders.permitted
    yield InForce(f"{what}room that fits", Range(low, high, Kind.LENGTH), source)
    if borders.floor < low:
        tight = Range(borders.floor, low, Kind.LENGTH)
        yield InForce(f"{what}room that goes with effort", tight, source)
    if borders.ceiling > high:
        loose = Range(high, borders.ceiling, Kind.LENGTH)
        yield InForce(f"{what}room that is loose, and refused", loose, source)


def _of_ports(joint: str, book: Book) -> Iterator[InForce]:
    """What the carrying parts of the book print as their own range or limit."""
    held: dict[Fact, list[str]] = {}
    for part in book.parts.values():
        for port in part.carries:
            if port.joint != joint:
                continue
            capture, limit = port.sizes.get("capture"), port.numbers.get("limit")
            if capture is not None:
                taken = Range(capture.low, capture.high, Kind.LENGTH)
                held.setdefault(taken, []).append(part.id)
            if limit is not None:
                most = Range(None, limit, Kind.POWER)
                held.setdefault(most, []).append(part.id)
    for value, parts in held.items():
        yield InForce(f"printed for {_some(parts)}", value, "book")


_SHOWN = 4


def _some(names: Sequence[str]) -> str:
    once = [*dict.fromkeys(names)]
    more = f" and {len(once) - _SHOWN} more" if len(once) > _SHOWN else ""
    return f"{', '.join(once[:_SHOWN])}{more}"


# -- the whole lamp --------------------------------------------------------------------------


def _of_balance(settings: Settings) -> Iterator[InForce]:
    limit = settings.limit
    slope = Range(limit.angle, None, Kind.ANGLE)
    yield InForce(f"slope a lamp stands on ({settings.tip})", slope, limit.source)
    fills = tuple(f"{fill * 100:.0f} %" for fill in settings.fills)
    yield InForce("fillings of the font that are tried", fills, "assumption")
    density = f"{settings.fuel_density:.0f} kg/m³"
    yield InForce("density of the fuel", density, "staffell2011")


def _of_heat(book: Book) -> Iterator[InForce]:
    parts = book.parts.values()
    heats = [heat_of(part) for part in parts if part.kind == "burner"]
    yield from _span("burners give off", [heat for heat in heats if heat], Kind.POWER)
    for kind in (*sorted(HEATED), "bell"):
        of_kind = [part for part in parts if part.kind == kind]
        rated = [part.heat_rating for part in of_kind if part.heat_rating is not None]
        yield from _span(f"{kind}s are rated for", rated, Kind.POWER)
        lacking = [part.id for part in of_kind if _unrated(part)]
        if lacking:
            says = f"{kind}s that state no rating, and count as not known"
            yield InForce(says, tuple(lacking), "book")


def _unrated(part: Part) -> bool:
    return part.heat_rating is None and part.material in GLASSY


def _span(says: str, values: Iterable[float], kind: Kind) -> Iterator[InForce]:
    held = [*values]
    if held:
        yield InForce(says, Range(min(held), max(held), kind), "book")


def _of_draft(book: Book | None) -> Iterator[InForce]:
    by_least: dict[float, list[str]] = {}
    for part in book.parts.values() if book else ():
        if part.least_chimney:
            by_least.setdefault(part.least_chimney, []).append(part.id)
    for least, burners in sorted(by_least.items()):
        says = f"chimney at sea level for {_some(burners)}"
        yield InForce(says, Range(least, None, Kind.LENGTH), "book")
    pressure = Quantity(SEA_LEVEL_PRESSURE, Kind.PRESSURE)
    yield InForce("higher up: taller, as air pressure is below", pressure, "usstd1976")


# -- flame and room --------------------------------------------------------------------------


def _of_flame_and_room(key: str) -> Iterator[InForce]:
    found = _LATER.get(key)
    if found is not None:
        yield from found()


def _starved() -> Iterator[InForce]:
    from wickwright.burn.judging import STARVED  # noqa: PLC0415 - loads numpy

    yield InForce("light, of that at sea level", _at_least(STARVED), "assumption")


def _stress() -> Iterator[InForce]:
    from wickwright.burn.glass_stress import KNOWN_WITHIN, STRENGTH  # noqa: PLC0415 - as above

    yield InForce("tension in used glass", Range(None, STRENGTH, Kind.STRESS), "assumption")
    yield InForce("known within a factor of", f"{KNOWN_WITHIN:g}", "assumption")


def _glass_hot() -> Iterator[InForce]:
    from wickwright.burn.glass_stress import GLASSES  # noqa: PLC0415 - as above

    for material, glass in GLASSES.items():
        hottest = Range(None, glass.warmest, Kind.TEMPERATURE)
        yield InForce(f"{material}, for a short time", hottest, glass.source)


def _dims() -> Iterator[InForce]:
    from wickwright.room.flame_findings import DIM  # noqa: PLC0415 - as above

    yield InForce("light, of that in fresh air", _at_least(DIM), "assumption")


def _air(gas: str, kind: Kind) -> Callable[[], Iterator[InForce]]:
    def limits() -> Iterator[InForce]:
        from wickwright.room.findings import JUDGED  # noqa: PLC0415 - as above
        from wickwright.room.limits import limits_of  # noqa: PLC0415 - as above

        for limit in limits_of(gas):
            held = limit.key in (*JUDGED, "co-indoor")
            low, high = (limit.value, None) if limit.at_least else (None, limit.value)
            says = limit.says if held else f"{limit.says} (if asked for)"
            yield InForce(says, Range(low, high, kind), limit.source)

    return limits


def _ventilation() -> Iterator[InForce]:
    from wickwright.room.ventilation import CPSC_GAP  # noqa: PLC0415 - as above

    yield InForce("a window open by", Range(CPSC_GAP, None, Kind.LENGTH), "cpsc5052")


def _nearby() -> Iterator[InForce]:
    from wickwright.room.materials import TOLERANCES  # noqa: PLC0415 - as above

    for it in TOLERANCES:
        yield InForce(it.material, Range(None, it.limit, Kind.TEMPERATURE), it.source)


def _yardstick() -> Iterator[InForce]:
    from wickwright.room.yardsticks import standard_volume  # noqa: PLC0415 - as above

    room = Range(standard_volume(1000.0), None, Kind.VOLUME)
    yield InForce("room for each 1,000 W, air change not known", room, "nfpa54")


def _at_least(share: float) -> Range:
    return Range(share, None, Kind.RATIO)


_LATER: dict[str, Callable[[], Iterator[InForce]]] = {
    "burn-starved": _starved,
    "burn-glass-stress": _stress,
    "burn-glass-hot": _glass_hot,
    "room-flame-dims": _dims,
    "room-co2": _air("carbon dioxide", Kind.SHARE),
    "room-oxygen": _air("oxygen", Kind.SHARE),
    "room-humidity": _air("humidity", Kind.RATIO),
    "room-co-alarm": _air("carbon monoxide", Kind.SHARE),
    "room-ventilation": _ventilation,
    "room-yardstick": _yardstick,
    "above-near": _nearby,
}
