"""The table of towns in its files."""

import gzip
from itertools import pairwise
from pathlib import Path

import pytest
from tests.support.towns import PLACES, SMALL, all_towns

from wickwright.answers.places.town_table import Known, TownTable
from wickwright.store.places import TABLES, read_towns
from wickwright.terms.units import ELEVATION_RANGE

MOST_BYTES = 1_000_000


def _write(folder: Path) -> Path:
    for name in TABLES:
        text = SMALL[name.partition(".")[0]]
        (folder / name).write_bytes(gzip.compress(text.encode()))
    return folder


def _faults(folder: Path) -> list[tuple[str, str, str]]:
    read = read_towns(folder)
    assert isinstance(read, tuple)
    return [(fault.table, fault.what, fault.cure) for fault in read]


def test_the_table_that_comes_along_is_whole() -> None:
    """If this failed, a town would crash the desk when it is found, or lie where nobody lives."""
    table = all_towns()
    assert len(table.rows) == len(table.starts) > 50_000
    towns = [table.town(at) for at in range(len(table.rows))]
    low, high = ELEVATION_RANGE
    assert all(low <= town.elevation <= high for town in towns)
    assert all(town.name and town.country != town.country_name for town in towns)
    assert all(a.population >= b.population for a, b in pairwise(towns))
    assert {town.known for town in towns} == set(Known)
    small = [town for town in towns if town.population < 5000]
    assert min(town.elevation for town in small) > 1000.0
    assert min(town.population for town in small) >= 1000


def test_the_table_is_small_and_names_whom_it_is_from() -> None:
    """If this failed, the program would carry a burden, or break the licence of its data."""
    assert sum((PLACES / name).stat().st_size for name in TABLES) < MOST_BYTES
    text = (PLACES / "README.md").read_text(encoding="utf-8")
    assert "GeoNames" in text
    assert "https://creativecommons.org/licenses/by/4.0/" in text
    assert "Copyright (c) 2016 widdix GmbH" in text


def test_a_table_is_read_once(tmp_path: Path) -> None:
    """If this failed, every call of a desk in a browser would wait for the file again."""
    folder = _write(tmp_path)
    first = read_towns(folder)
    assert isinstance(first, TownTable)
    assert read_towns(folder) is first


@pytest.mark.parametrize(
    "content",
    [b"no gzip at all", gzip.compress(b"x" * 999)[:-9], gzip.compress(b"\xff\xfe")],
    ids=["not packed", "cut short", "not text"],
)
def test_a_damaged_file_is_told(tmp_path: Path, content: bytes) -> None:
    """If this failed, a file cut short would end in a traceback."""
    (_write(tmp_path) / "towns.tsv.gz").write_bytes(content)
    cure = "install the program again: this file comes with it"
    assert _faults(tmp_path) == [("towns.tsv.gz", "the file is damaged", cure)]


def test_all_files_that_are_missing_are_told_at_once(tmp_path: Path) -> None:
    """If this failed, they would be found missing one by one."""
    folder = tmp_path / "places"
    folder.mkdir()
    assert _faults(folder) == [
        (
            name,
            f"there is no file or folder '{name}'",
            f"check the name and the folder '{folder}'",
        )
        for name in TABLES
    ]


def test_lines_that_are_not_whole_are_told(tmp_path: Path) -> None:
    """If this failed, a table of other columns would answer with them."""
    (_write(tmp_path) / "towns.tsv.gz").write_bytes(gzip.compress(b"Brae\tNO\n"))
    what, cure = (
        "a line of the table of towns is not whole",
        "install the program again: this file comes with it",
    )
    assert _faults(tmp_path) == [(tmp_path.name, what, cure)]
