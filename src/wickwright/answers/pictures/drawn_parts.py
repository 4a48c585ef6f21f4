"""From a part of the fit book to the piece that is drawn of it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.records import Footing, Service
from wickwright.charts.lamp_piece import Piece, Ring, State

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickwright.catalogue.records import Book, Part, Port

__all__ = ["looks_of", "piece_of"]

_GUESSED_HEIGHT: Final = 0.05
"""Height drawn, dotted, where the book has none [m]."""
_CAPS: Final = {"E27": 0.0133, "E14": 0.007, "B22d": 0.011}
"""Radius of a lamp cap [m]: half the figure in its name (common practice, no published
source)."""
_WORDS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "font": (
        ("pear", "pear"), ("straight", "straight"), ("drum", "straight"), ("can", "straight"),
        ("square", "straight"), ("slope", "sloping"),
    ),
    "shade": (("wide", "wide"), ("tulip", "tulip"), ("drum", "drum"), ("cone", "cone")),
    "bulb": (("candle", "candle"),),
}  # fmt: skip
"""Words in a mark or name that tell a form."""
_SEEN: Final = (("a cap", "cap"), ("an open tube", "tube"), ("slots", "slots"),
                ("three rows", "rows"), ("four rows", "rows"), ("pleated", "pleats"),
                ("fringed", "fringe"))  # fmt: skip
"""Words in a mark and what is drawn for them."""


def looks_of(book: Book) -> dict[str, tuple[str, ...]]:
    """Return what is seen on each part, by the marks of the book."""
    found: dict[str, list[str]] = {}
    for mark in book.calls.marks:
        found.setdefault(mark.part, []).append(mark.value)
    return {part: tuple(values) for part, values in found.items()}


def piece_of(
    part: Part,
    foot: float,
    looks: Mapping[str, tuple[str, ...]],
    *,
    by: Port | None = None,
    state: State = State.KEPT,
    dry: bool = False,
) -> Piece:
    """Return what is drawn of a part.

    Parameters
    ----------
    part : Part
        The part.
    foot : float
        Height of its foot above the table [m].
    looks : mapping of str to tuple of str
        What is seen on each part.
    by : Port or None
        The port it stands by; None for the root, and for what stands by itself.
    state : State
        What becomes of it.
    dry : bool
        Whether there is no fuel in it.

    Returns
    -------
    Piece
        The piece.
    """
    seen = looks.get(part.id, ())
    stands = by or next(iter(part.stands), None)
    support, bore = part.support, _bore(part)
    return Piece(
        id=part.id,
        kind=part.kind,
        label=part.name,
        foot=foot,
        tall=_GUESSED_HEIGHT if part.height is None else part.height,
        state=state,
        known=part.height is not None,
        form=_form(part, seen),
        by=_ring(stands) if stands else None,
        takes=_takes(part),
        bore=bore,
        shoulder=_measure(part, "foot_length"),
        edge=support.radius if support else 0.0,
        feet=support.feet if support else 0,
        lugs=_lugs(part),
        fuel=_fuel(part) if not dry else None,
        marks=frozenset(mark for said, mark in _SEEN if any(said in value for value in seen)),
    )


def _measure(part: Part, name: str) -> float:
    found = part.flame.get(name)
    return found.value if found else 0.0


def _bore(part: Part) -> float:
    """Radius of the tube of a chimney outside, or of the web of a mantle from its area [m]."""
    if part.kind == "chimney" and _measure(part, "body_bore"):
        return _measure(part, "body_bore") / 2 + _measure(part, "wall")
    if part.kind == "mantle" and part.height and _measure(part, "mantle_area"):
        return _measure(part, "mantle_area") / (2 * math.pi * part.height)
    return 0.0


def _fuel(part: Part) -> tuple[float, float, float] | None:
    if part.fuel is None:
        return None
    radius = math.sqrt(part.fuel.volume / (math.pi * part.fuel.depth))
    return part.fuel.floor, part.fuel.depth, radius


def _ring(port: Port) -> Ring | None:
    """Where a port is; None where nobody has measured it."""
    for name in ("diameter", "capture"):
        size = port.sizes.get(name)
        if size is not None and size.nominal:
            return Ring(port.height, size.nominal / 2)
    cap = _CAPS.get(port.words.get("cap", ""))
    return Ring(port.height, cap) if cap else None


def _takes(part: Part) -> dict[str, Ring]:
    found: dict[str, Ring] = {}
    for port in part.carries:
        ring = _ring(port)
        if ring is not None:
            found |= {kind: ring for kind in port.takes if kind not in found}
    return found


def _lugs(part: Part) -> int:
    """Lugs of the seat of a gallery, or grooves in the foot of a chimney."""
    ports = part.stands if part.kind == "chimney" else part.carries
    turns = [port for port in ports if port.joint == "quarter-turn"]
    mine = [port for port in turns if part.kind == "chimney" or "chimney" in port.takes]
    return int(next((port.numbers.get("lugs", 0) for port in mine), 0))


def _form(part: Part, seen: tuple[str, ...]) -> str:
    match part.kind:
        case "base":
            return _footing(part)
        case "burner":
            return _service(part)
        case "wick":
            return next((port.words.get("form", "") for port in part.stands), "")
        case "mantle":
            return "stem" if any(port.name == "stem" for port in part.stands) else "ring"
        case "holder":
            return "arms" if any(port.joint == "open-arms" for port in part.carries) else "ring"
        case _:
            said = (*seen, part.name.lower())
            words = _WORDS.get(part.kind, ())
            return next((form for word, form in words if any(word in one for one in said)), "")


def _footing(part: Part) -> str:
    support = part.support
    if support is None:
        return Footing.ROUND.value
    return (
        Footing.ROUND.value
        if support.footing is Footing.FEET and not support.feet
        else support.footing.value
    )


def _service(part: Part) -> str:
    if part.service is Service.ELECTRIC:
        return "electric"
    wicks = [port for port in part.carries if "wick" in port.takes]
    return "flat" if any(port.words.get("form") == "flat" for port in wicks) else "round"
