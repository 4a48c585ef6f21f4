"""Readings from the bench: a table of text into what was measured, or every fault in it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.burn.checks import BurnError
from wickwright.burn.lamp import burning_parts
from wickwright.burn.parts import Air
from wickwright.catalogue.columns import Column, Holds, Table
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.headers import read_heading
from wickwright.catalogue.spelling import meant, quoted
from wickwright.physics.air import pressure_at
from wickwright.physics.kerosene import DENSITY
from wickwright.physics.light import flux_of_candlepower

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.burn.lamp import BurningLamp
    from wickwright.catalogue.records import Book, Part

__all__ = ["LUMENS_PER_CANDLE", "READINGS", "Reading", "read_readings"]

LUMENS_PER_CANDLE: Final = 10.0
"""Flux of a lamp for each candela sideways [lm/cd]; ``luckiesh1920``: less than a sphere's
12.57, since little goes up and down."""

READINGS = Table(
    "bench_readings",
    "one burning of one lamp on the bench",
    (
        Column("lamp", Holds.LINK, "model number of the lamp", must=True, of="lamps"),
        Column("chimney", Holds.LINK, "chimney on it; blank for the one it was sold with"),
        Column(
            "place",
            Holds.TEXT,
            "elevation or measured pressure, such as 120 m, 3000 ft or 985 hPa",
            must=True,
        ),
        Column("room", Holds.TEXT, "temperature of the room, such as 21 C or 70 F", must=True),
        Column("setting", Holds.TEXT, "fullest, or set for a wick set lower; blank for fullest"),
        Column("fuel", Holds.TEXT, "fuel used, such as 64.2 g or 80 ml", must=True),
        Column("time", Holds.TEXT, "how long it burned, such as 60 min or 1 h", must=True),
        Column("illuminance", Holds.TEXT, "light level beside the lamp, such as 28 lx"),
        Column("distance", Holds.TEXT, "from mantle to light meter, such as 1 m"),
        Column("glass", Holds.TEXT, "hottest glass, such as 410 C; blank where not measured"),
        Column("note", Holds.TEXT, "anything about it"),
    ),
)
"""The table of readings, for its reader and its template."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One burning on the bench.

    Attributes
    ----------
    row : int
        Row of the table.
    lamp : BurningLamp
        The lamp in its room, as the book has it.
    fullest : bool
        True for the fullest clean flame; False where the wick was set lower.
    fuel : float
        Fuel burnt [kg/s].
    light : float or None
        Luminous flux [lm].
    glass : float or None
        Hottest glass [K].
    """

    row: int
    lamp: BurningLamp
    fullest: bool
    fuel: float
    light: float | None
    glass: float | None


@dataclass(frozen=True, slots=True)
class _Figure:
    """How one column is read: units, with SI units in one and what zero of it is; limits."""

    units: Mapping[str, tuple[float, float]]
    low: float
    high: float
    limits: str
    example: str


_NUMBER = re.compile(r"(?P<number>-?\d{1,9}(?:\.\d{1,9})?)\s*(?P<unit>[^\s\d]\S*)")
_FIGURES: dict[str, _Figure] = {
    "place": _Figure(
        {"m": (1.0, 0.0), "ft": (0.3048, 0.0), "hPa": (100.0, 0.0), "inHg": (3386.389, 0.0)},
        -430.0,
        6000.0,
        "-430 m (the lowest shore) to 6000 m (the highest dwellings), or 450 to 1100 hPa",
        "120 m, 3000 ft or 985 hPa",
    ),
    "room": _Figure(
        {"C": (1.0, 273.15), "F": (1 / 1.8, 459.67 / 1.8)},
        263.15,
        323.15,
        "-10 C to 50 C",
        "21 C or 70 F",
    ),
    "fuel": _Figure(
        {"g": (1e-3, 0.0), "ml": (1e-6 * DENSITY.value, 0.0)}, 1e-3, 5.0, "1 g to 5000 g", "64.2 g"
    ),
    "time": _Figure(
        {"min": (60.0, 0.0), "h": (3600.0, 0.0)}, 300.0, 86400.0, "5 min to 24 h", "1 h"
    ),
    "illuminance": _Figure({"lx": (1.0, 0.0)}, 0.1, 10000.0, "0.1 lx to 10000 lx", "28 lx"),
    "distance": _Figure(
        {"m": (1.0, 0.0), "cm": (0.01, 0.0), "ft": (0.3048, 0.0)}, 0.2, 10.0, "0.2 m to 10 m", "1 m"
    ),
    "glass": _Figure(
        {"C": (1.0, 273.15), "F": (1 / 1.8, 459.67 / 1.8)},
        313.15,
        1073.15,
        "40 C to 800 C",
        "410 C",
    ),
}
_PRESSURES = ("hPa", "inHg")
_PRESSURE_LIMITS = (45000.0, 110000.0)
_RATES = (5e-3 / 3600.0, 0.3 / 3600.0)
_LIGHTS = (1.0, 5000.0)
_SETTINGS = ("", "fullest", "set")

Cells = dict[str, str]


class _Row:
    """One row being read, and the faults found in it."""

    def __init__(self, number: int, cells: Cells, faults: list[Fault]) -> None:
        self.number = number
        self.cells = cells
        self._faults = faults
        self.sound = True

    def fault(self, column: str, what: str, cure: str) -> None:
        """Note a fault."""
        self.sound = False
        self._faults.append(Fault(READINGS.name, self.number, column, what, cure))

    def figure(self, column: str) -> float | None:
        """Return a figure [SI unit]; None where it is blank or at fault."""
        text, of = self.cells[column], _FIGURES[column]
        if not text:
            return None
        match = _NUMBER.fullmatch(text)
        if match is None or match["unit"] not in of.units:
            units = ", ".join(of.units)
            what = f"{quoted(text)} is not a figure with a unit of {units}"
            self.fault(column, what, f"write it such as {of.example}")
            return None
        scale, zero = of.units[match["unit"]]
        value = float(match["number"]) * scale + zero
        low, high = _PRESSURE_LIMITS if match["unit"] in _PRESSURES else (of.low, of.high)
        if not low <= value <= high:
            what = f"{quoted(text)} cannot be: the {column} may be {of.limits}"
            self.fault(column, what, "check the figure and its unit against the bench sheet")
            return None
        return pressure_at(value) if column == "place" and match["unit"] in ("m", "ft") else value

    def must(self) -> None:
        """Note the cells that must be filled and are not."""
        for column in READINGS.columns:
            if column.must and not self.cells[column.name]:
                self.fault(column.name, "the cell is blank", f"fill it in: {column.note}")


def _parts(row: _Row, book: Book) -> dict[str, Part] | None:
    """Return the parts of the lamp by kind, the chimney as the row has it."""
    name, glass = row.cells["lamp"], row.cells["chimney"]
    parts: dict[str, Part] = {}
    if name and name not in book.lamps:
        cure = f"{meant(name, book.lamps)}write a model number of the table lamps"
        row.fault("lamp", f"there is no lamp {quoted(name)}", cure)
    elif name:
        parts = {book.parts[key].kind: book.parts[key] for key in book.lamps[name].as_sold}
    if glass and glass not in book.parts:
        cure = f"{meant(glass, book.parts)}write a part number of the table parts"
        row.fault("chimney", f"there is no part {quoted(glass)}", cure)
    elif glass and book.parts[glass].kind != "chimney":
        what = f"{quoted(glass)} is a {book.parts[glass].kind} and no chimney"
        row.fault("chimney", what, "write the number of the chimney that was on the lamp")
    elif glass:
        parts["chimney"] = book.parts[glass]
    for kind in ("burner", "chimney"):
        if name in book.lamps and kind not in parts:
            what = f"the lamp {quoted(name)} has no {kind}, and nothing burns without one"
            row.fault("lamp", what, "write the model number of a lamp with a flame")
    return parts if row.sound and parts else None


def _light(row: _Row) -> float | None:
    """Return the flux from light level and distance [lm]."""
    lux, distance = row.figure("illuminance"), row.figure("distance")
    given = [name for name in ("illuminance", "distance") if row.cells[name]]
    if len(given) == 1:
        other = "distance" if given[0] == "illuminance" else "illuminance"
        names = {"illuminance": "an illuminance", "distance": "a distance"}
        what = f"there is {names[given[0]]} without {names[other]}"
        row.fault(other, what, "fill in both, or neither")
    if lux is None or distance is None:
        return None
    light = flux_of_candlepower(lux * distance**2, LUMENS_PER_CANDLE)
    low, high = _LIGHTS
    if not low <= light <= high:
        what = (
            f"{row.cells['illuminance']} at {row.cells['distance']} is a lamp of {light:.3g} lm; "
            f"a lamp with a wick gives {low:.0f} to {high:.0f} lm"
        )
        row.fault("illuminance", what, "check light level and distance against the bench sheet")
    return light


def _rate(row: _Row) -> float:
    fuel, time = row.figure("fuel"), row.figure("time")
    if fuel is None or time is None:
        return 0.0
    rate = fuel / time
    low, high = _RATES
    if not low <= rate <= high:
        what = (
            f"{row.cells['fuel']} in {row.cells['time']} is {3.6e6 * rate:.3g} g/h; a wick burns "
            f"{3.6e6 * low:.0f} to {3.6e6 * high:.0f} g/h"
        )
        row.fault("fuel", what, "check fuel and time against the bench sheet")
    return rate


def _reading(row: _Row, book: Book) -> Reading | None:
    row.must()
    setting = row.cells["setting"]
    if setting not in _SETTINGS:
        cure = f"{meant(setting, _SETTINGS[1:])}write fullest or set, or leave it blank"
        row.fault("setting", f"{quoted(setting)} is not a setting", cure)
    pressure, room = row.figure("place"), row.figure("room")
    rate, light, glass = _rate(row), _light(row), row.figure("glass")
    parts = _parts(row, book)
    if parts is None or pressure is None or room is None or not row.sound:
        return None
    try:
        air = Air(pressure, room)
        lamp = burning_parts(parts["burner"], parts["chimney"], parts.get("mantle"), air)
    except BurnError as error:
        row.fault("lamp", str(error), "correct the book, or leave the row out")
        return None
    return Reading(row.number, lamp, setting != "set", rate, light, glass)


def _rows(raw: RawTable, places: Mapping[str, int]) -> Iterator[tuple[int, Cells]]:
    for number, cells in raw.rows:
        stripped = [cell.strip() for cell in cells]
        if any(stripped) and not stripped[0].startswith("#"):
            yield (
                number,
                {
                    column.name: stripped[at]
                    if (at := places.get(column.name, -1)) >= 0 and at < len(stripped)
                    else ""
                    for column in READINGS.columns
                },
            )


def read_readings(raw: RawTable, book: Book) -> tuple[Reading, ...] | tuple[Fault, ...]:
    """Read a table of readings.

    Parameters
    ----------
    raw : RawTable
        As it was read from a file; rows that begin with ``#`` are notes.
    book : Book
        The fit book the lamps and chimneys are in.

    Returns
    -------
    tuple of Reading or tuple of Fault
        Every reading when there is no fault in the table; otherwise every fault.
    """
    heading = read_heading(raw.header, READINGS)
    faults = list(heading.faults)
    found: list[Reading] = []
    if not faults:
        for number, cells in _rows(raw, heading.places):
            reading = _reading(_Row(number, cells, faults), book)
            if reading:
                found.append(reading)
    if not faults and not found:
        what = "there is no reading in the table"
        faults.append(Fault(READINGS.name, 0, "", what, f"add one row for {READINGS.row}"))
    return tuple(sorted(faults)) if faults else tuple(found)
