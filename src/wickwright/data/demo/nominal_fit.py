"""The demo's tables as text, and what goes on what by nominal sizes.

Written for :mod:`wickwright.data.demo.consistency`; it shares no code with the program, so that
a mistake in one is not repeated in the other.
"""

from __future__ import annotations

import csv
import math
import re
from collections import defaultdict
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "HERE",
    "Demo",
    "Row",
    "Stack",
    "goes",
    "load",
    "millimetres",
    "mounted",
    "nominal",
    "stack",
    "tips_at",
    "words",
]

HERE = Path(__file__).parent
TABLES = (
    "about",
    "families",
    "lamps",
    "parts",
    "ports",
    "includes",
    "wishes",
    "looks",
    "marks",
    "swaps",
    "signs",
    "complaints",
    "causes",
    "shows",
    "remedies",
    "cures",
    "sources",
)
KEROSENE = 0.807
"""Density [g/ml]."""

CLEARANCES = {
    "thread": (0.0, 0.6),
    "quarter-turn": (0.05, 1.2),
    "mantle": (0.0, 0.6),
    "fitter": (0.3, 3.0),
    "rest": (0.0, 2.0),
}
"""Hole less shaft [mm], both nominal."""

WICK_STRETCH = (-1.5, 0.5)
"""Wick less tube or slot [mm]."""

SAME = ("form", "hand", "lugs", "cap")
"""Columns of a port that must read the same on both sides."""

Row = dict[str, str]


@cache
def millimetres(text: str) -> tuple[float, float]:
    """Read a length.

    Parameters
    ----------
    text : str
        ``'61.8 ± 0.3 mm'``, ``'2 5/8 in'``, ``'71.5..74.5 mm'`` and the like.

    Returns
    -------
    tuple of float
        Both ends of a range; twice the nominal size where it is none [mm].
    """
    number, _, unit = text.rpartition(" ")
    scale = Fraction("25.4") if unit == "in" else Fraction(1)
    size = re.split(r" [±+]", number)[0]
    ends = [float(_fraction(end) * scale) for end in re.split(r"\.\.| to ", size)]
    return ends[0], ends[-1]


def _fraction(text: str) -> Fraction:
    return sum((Fraction(word) for word in text.split()), Fraction(0))


def nominal(text: str) -> float:
    """Return the size named, or the middle of a range [mm]."""
    low, high = millimetres(text)
    return (low + high) / 2


@cache
def _pitch(text: str) -> float:
    """Return the advance of a thread in one turn [mm]."""
    number, unit = text.split()
    return 25.4 / float(number) if unit == "tpi" else float(number)


def words(cell: str) -> list[str]:
    """Return what a cell holds, parted by blanks."""
    return cell.split()


@dataclass(frozen=True)
class Demo:
    """Every table as text, and the orders with their key."""

    tables: dict[str, list[Row]]
    orders: list[Row]
    key: list[Row]

    @cached_property
    def parts(self) -> dict[str, Row]:
        """Rows of parts by number."""
        return {row["part"]: row for row in self.tables["parts"]}

    @cached_property
    def lamps(self) -> dict[str, Row]:
        """Rows of lamps by number."""
        return {row["lamp"]: row for row in self.tables["lamps"]}

    @cached_property
    def carries(self) -> dict[str, list[Row]]:
        """Carrying ports by part."""
        return self._ports("carries")

    @cached_property
    def stands(self) -> dict[str, list[Row]]:
        """Standing ports by part."""
        return self._ports("stands")

    def _ports(self, side: str) -> dict[str, list[Row]]:
        ports: defaultdict[str, list[Row]] = defaultdict(list)
        for row in self.tables["ports"]:
            if row["side"] == side:
                ports[row["part"]].append(row)
        return ports

    def of_kind(self, kind: str) -> list[str]:
        """Return the numbers of the parts of one kind."""
        return [part for part, row in self.parts.items() if row["kind"] == kind]

    def sold(self, lamp: str, kind: str) -> str:
        """Return the part of a kind that a lamp was sold with, or blank."""
        parts = words(self.lamps[lamp]["as_sold"])
        return next((part for part in parts if self.parts[part]["kind"] == kind), "")


def _read(path: Path) -> list[Row]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def load() -> Demo:
    """Read the demo from the files beside this one."""
    tables = {name: _read(HERE / "book" / f"{name}.csv") for name in TABLES}
    return Demo(tables, _read(HERE / "orders.csv"), _read(HERE / "orders_key.csv"))


def _mates(on: Row, by: Row) -> bool:
    """Whether two halves of a joint go together."""
    if on["joint"] != by["joint"] or any(on[name] != by[name] for name in SAME):
        return False
    if on["joint"] == "lampholder":
        return float(by["limit"]) <= float(on["limit"])
    carrying, standing = on["capture"] or on["diameter"], by["diameter"]
    if not carrying or not standing:
        return bool(on["label"]) and on["label"] == by["label"]
    return _sizes_mate(on, by, carrying, standing)


def _sizes_mate(on: Row, by: Row, carrying: str, standing: str) -> bool:
    low, high = millimetres(carrying)
    size = nominal(standing)
    if on["capture"]:
        return low <= size <= high
    if on["joint"] == "wick":
        return WICK_STRETCH[0] <= size - low <= WICK_STRETCH[1]
    if on["pitch"] and abs(_pitch(on["pitch"]) / _pitch(by["pitch"]) - 1) > 0.02:
        return False
    if on["angle"] and abs(float(on["angle"]) - float(by["angle"])) > 5:
        return False
    least, most = CLEARANCES[on["joint"]]
    return least <= round(low - size, 6) <= most


def goes(demo: Demo, on: Row, part: str) -> Row | None:
    """Return the port by which a part goes on a carrying port, if it does."""
    if demo.parts[part]["kind"] not in words(on["takes"]):
        return None
    return next((by for by in demo.stands[part] if _mates(on, by)), None)


@dataclass
class Stack:
    """Parts put together: height of each foot above the table [mm], and the ports used."""

    feet: dict[str, float]
    used: set[tuple[str, str]]
    loose: list[str]


def stack(demo: Demo, parts: Sequence[str]) -> Stack:
    """Put parts together, the base first; what goes nowhere stays loose."""
    built = Stack({parts[0]: 0.0}, set(), list(parts[1:]))
    while any(_place(demo, built, part) for part in built.loose):
        pass
    return built


def _place(demo: Demo, built: Stack, part: str) -> bool:
    """Put one part where it goes; False where it goes nowhere yet."""
    for carrier, foot in built.feet.items():
        for on in demo.carries[carrier]:
            by = goes(demo, on, part)
            if by is None or (carrier, on["port"]) in built.used:
                continue
            built.feet[part] = foot + nominal(on["height"]) - nominal(by["height"])
            built.used.add((carrier, on["port"]))
            built.loose.remove(part)
            return True
    return False


def mounted(demo: Demo, parts: Sequence[str]) -> bool:
    """Whether every part goes somewhere."""
    return not stack(demo, parts).loose


def tips_at(demo: Demo, parts: Sequence[str]) -> float:
    """Return the slope at which a lamp tips, its font empty or full, whichever is less."""
    feet = stack(demo, parts).feet
    base = demo.parts[parts[0]]
    reach = nominal(base["radius"])
    if base["feet"]:
        reach *= math.cos(math.pi / int(base["feet"]))
    mass = moment = 0.0
    fuel: list[tuple[float, float]] = [(0.0, 0.0)]
    for part, foot in feet.items():
        row = demo.parts[part]
        mass += float(row["mass"])
        moment += float(row["mass"]) * (foot + nominal(row["centre"]))
        if row["fuel_volume"]:
            middle = foot + nominal(row["fuel_floor"]) + nominal(row["fuel_depth"]) / 2
            fuel.append((float(row["fuel_volume"]) * KEROSENE, middle))
    heights = [(moment + grams * at) / (mass + grams) for grams, at in fuel]
    return math.degrees(math.atan2(reach, max(heights)))
