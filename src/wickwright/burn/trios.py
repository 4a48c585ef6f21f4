"""The light of many burners under many chimneys with many mantles, in one array call."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.assumptions import FLAT, ROUND, leaf_of
from wickwright.burn.checks import LIMITS, MOST_FOOT
from wickwright.burn.flames import solve
from wickwright.burn.lamp import is_flat
from wickwright.burn.parts import Chimney, Lamps, Mantle, Model, Passages, Wick, with_leaf
from wickwright.catalogue.measures import MEASURES

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from wickwright.burn.assumptions import Assumed
    from wickwright.burn.parts import Air
    from wickwright.catalogue.records import Part

    Floats = NDArray[np.float64]

__all__ = ["Trio", "light_of_trios"]

Trio = tuple["Part", "Part", "Part | None"]
"""Burner, chimney, mantle; None where there is no mantle."""

_KINDS: Final = ("burner", "chimney", "mantle")
_NAMES: Final = {
    kind: {
        leaf: name for name, of in MEASURES.items() if of.kind == kind and (leaf := leaf_of(name))
    }
    for kind in _KINDS
}
"""Leaf of a lamp to property of the book, by kind of part."""
_DEFAULT_MODEL = Model()
_UNSETTLED = 1e-6


def light_of_trios(trios: Sequence[Trio], air: Air, model: Model = _DEFAULT_MODEL) -> Floats:
    """Return the light of each trio at its fullest clean flame.

    Parameters
    ----------
    trios : sequence of Trio
        The parts that make each flame.
    air : Air
        The air of the room, checked.
    model : Model
        What no part says.

    Returns
    -------
    array
        Luminous flux outside the glass [lm], of the shape of ``trios``; NaN where a figure of
        a part cannot be, 0 where no flame holds.
    """
    light = np.full(len(trios), np.nan)
    known: dict[tuple[str, bool], dict[str, float] | None] = {}
    rows = {at: row for at, trio in enumerate(trios) if (row := _row(trio, known))}
    if rows:
        flames = solve(_lamps(list(rows.values()), air, model))
        burns = np.asarray(flames.settled) < _UNSETTLED
        light[list(rows)] = np.where(burns, np.asarray(flames.light), 0.0)
    return light


def _row(
    trio: Trio, known: dict[tuple[str, bool], dict[str, float] | None]
) -> dict[str, float] | None:
    """Return every number of a trio by leaf; None where one cannot be."""
    flat = is_flat(trio[0])
    row: dict[str, float] = {}
    for kind, part in zip(_KINDS, trio, strict=True):
        key = (part.id if part else "", flat)
        if key not in known:
            known[key] = _sound(_numbers(kind, part, FLAT if flat else ROUND))
        numbers = known[key]
        if numbers is None:
            return None
        row |= numbers
    return row


def _numbers(kind: str, part: Part | None, general: dict[str, Assumed]) -> dict[str, float]:
    """Return the numbers of one part, general ones where the book has none."""
    found = {
        leaf: part.flame[name].value if part and name in part.flame else general[name].value
        for leaf, name in _NAMES[kind].items()
    }
    if part is None:
        found["mantle.area"] = 0.0
    elif kind == "chimney":
        found["chimney.height"] = part.height or 0.0
    return found


def _sound(numbers: dict[str, float]) -> dict[str, float] | None:
    """Pass on numbers that can be; a chimney must be more than its foot."""
    possible = all(
        LIMITS[name].low <= value <= LIMITS[name].high for name, value in numbers.items()
    )
    foot, height = numbers.get("chimney.foot_length", 0.0), numbers.get("chimney.height", 1.0)
    return numbers if possible and foot <= MOST_FOOT * height else None


def _lamps(rows: Sequence[dict[str, float]], air: Air, model: Model) -> Lamps:
    blank = Lamps(
        Passages(0.0, 0.0, 0.0, 0.0),
        Wick(0.0, 1.0),
        Mantle(0.0, 0.5, 0.06, 1.0),
        Chimney(0.0, 0.0, 0.0, 0.0, 0.0),
        air,
        model,
    )
    for name in rows[0]:
        blank = with_leaf(blank, name, np.array([row[name] for row in rows]))
    return blank
