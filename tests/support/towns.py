"""The table of towns that comes with the program, and a small one made up."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from wickwright import app
from wickwright.answers.places.town_table import TownTable, town_table
from wickwright.store.places import read_towns

__all__ = ["PLACES", "SMALL", "all_towns", "small_towns"]

PLACES = Path(app.__file__).parent / "data" / "places"

SMALL = {
    "towns": (
        "Brae\tNO\t01\t90000\t40\tt\n"
        "Høg Vik\tNO\t02\t50000\t1200\ts\n"
        "Brae\tSE\t07\t8000\t900\ts\n"
        "Brae Sør\tNO\t01\t7000\t95\tt\n"
        "Old Tarn\tNO\t02\t6500\t30\tt\n"
        "Tarn\tSE\t07\t6000\t10\tt\n"
        "Nes\tSE\tUP\t5500\t15\td\n"
        "18 Mars\tSE\tUP\t5200\t77\tt\n"
        "Skog, Lund\tSE\tUP\t5100\t80\tt\n"
    ),
    "regions": "NO.01\tWest Firth\nNO.02\tHøgland\nSE.07\tNorth\nSE.UP\tUpper Dale\n",
    "countries": "NO\tKingdom of Norway\tNorway\nSE\tSweden\n",
}
"""Texts of a made-up table; the codes of its countries are real, its towns are not."""


def small_towns() -> TownTable:
    return town_table(**SMALL)


@cache
def all_towns() -> TownTable:
    found = read_towns(PLACES)
    assert isinstance(found, TownTable), found
    return found
