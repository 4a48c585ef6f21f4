"""Make the demo's bench readings: a burner that differs from its drawing, read with noise.

Run as a script. It writes ``bench_readings.csv`` beside itself, the same bytes at every run.
What the burner truly is stands in :data:`TRUTH`; the book knows nothing of it.
"""

from __future__ import annotations

import csv
import random
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from wickwright.burn.flames import solve
from wickwright.burn.lamp import BurningLamp, burning_parts
from wickwright.burn.parts import FULLEST, Air, with_leaf
from wickwright.burn.readings import LUMENS_PER_CANDLE, READINGS
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.physics.air import pressure_at
from wickwright.store.tables import are_faults, read_tables

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["NOISE", "TRUTH", "main", "rows"]

HERE = Path(__file__).parent
SEED = 1978
LAMP = "DU-401"
TRUTH: Final = {
    "passages.loss": 2.6,
    "passages.laminar": 140e6,
    "wick.limit": 70.0e-3 / 3600.0,
    "mantle.exchange": 1.5,
}
"""The burner on the bench [SI units]."""
NOISE: Final = {"fuel": 0.012, "light": 0.04, "glass": 6.0}
"""Standard deviation of the noise: shares of fuel and light, and kelvin."""
BENCHES: Final = (
    ("40 m", 40.0, 21.0),
    ("40 m", 40.0, 18.0),
    ("610 m", 610.0, 20.0),
    ("1450 m", 1450.0, 22.0),
)
"""Place as written, elevation [m] and room [degrees Celsius]."""
BURNINGS: Final = (
    ("CH-3296", 1.0),
    ("CH-3371", 1.0),
    ("CH-3318", 1.0),
    ("CH-3250", 1.0),
    ("CH-3296", 0.85),
    ("CH-3371", 0.75),
)
"""Chimney, and the setting over the fullest flame."""


def _book() -> Book:
    tables = read_tables(HERE / "book")
    if are_faults(tables):
        msg = f"the demo book was not read: {tables}"
        raise SystemExit(msg)
    book = read_book(tables)
    if not isinstance(book, Book):
        msg = f"the demo book has faults: {book}"
        raise SystemExit(msg)
    return book


def _lamp(book: Book, glass: str, elevation: float, room: float) -> BurningLamp:
    parts = {book.parts[key].kind: book.parts[key] for key in book.lamps[LAMP].as_sold}
    air = Air(pressure_at(elevation), room + 273.15)
    return burning_parts(parts["burner"], book.parts[glass], parts["mantle"], air)


def rows() -> Iterator[dict[str, str]]:
    """Yield the readings, with noise."""
    rng, book = random.Random(SEED), _book()
    for place, elevation, room in BENCHES:
        for glass, setting in BURNINGS:
            lamps = _lamp(book, glass, elevation, room).lamps
            for name, value in TRUTH.items():
                lamps = with_leaf(lamps, name, value)
            fullest = solve(replace(lamps, fuel=FULLEST))
            fuel = float(fullest.fuel) * setting
            flames = solve(replace(lamps, fuel=fuel)) if setting < 1.0 else fullest
            yield {
                "lamp": LAMP,
                "chimney": glass,
                "place": place,
                "room": f"{room:.0f} C",
                "setting": "set" if setting < 1.0 else "fullest",
                "fuel": f"{3.6e6 * fuel * rng.gauss(1.0, NOISE['fuel']):.1f} g",
                "time": "60 min",
                "illuminance": _lux(float(flames.light) * rng.gauss(1.0, NOISE["light"])),
                "distance": "1 m",
                "glass": _celsius(float(flames.glass_foot) + rng.gauss(0.0, NOISE["glass"])),
                "note": "",
            }


def _celsius(kelvin: float) -> str:
    return f"{kelvin - 273.15:.0f} C"


def _lux(light: float) -> str:
    return f"{light / LUMENS_PER_CANDLE:.1f} lx"


def main() -> None:
    """Write the readings."""
    path = HERE / "bench_readings.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, [c.name for c in READINGS.columns], lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows())
    print(f"wrote {path.name}")


if __name__ == "__main__":
    main()
