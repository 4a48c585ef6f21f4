"""Elevations of towns against published figures.

A figure for a city stands for one point of it, and large cities span some hundred metres of
height; so each is given the width that its city is known to have, and all together must agree.
"""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

import pytest
from tests.support.towns import all_towns

from wickwright.answers.places.place_names import towns_named

if TYPE_CHECKING:
    from wickwright.answers.places.town_table import Town

# 'List of capital cities by elevation', an encyclopaedia's list, seen on a mirror of it [m].
CAPITALS = {
    "La Paz, Bolivia": 3640,
    "Quito, Ecuador": 2850,
    "Sucre, Bolivia": 2790,
    "Bogotá, Colombia": 2625,
    "Addis Ababa, Ethiopia": 2355,
    "Thimphu, Bhutan": 2334,
    "Asmara, Eritrea": 2325,
    "Sanaa, Yemen": 2250,
    "Mexico City, Mexico": 2240,
    "Nairobi, Kenya": 1795,
    "Kabul, Afghanistan": 1790,
    "Windhoek, Namibia": 1721,
    "Maseru, Lesotho": 1673,
    "Kigali, Rwanda": 1567,
    "Guatemala City, Guatemala": 1529,
    "Gitega, Burundi": 1504,
    "Harare, Zimbabwe": 1483,
    "Kathmandu, Nepal": 1400,
    "Antananarivo, Madagascar": 1288,
    "Pretoria, South Africa": 1271,
    "Lusaka, Zambia": 1270,
    "Mbabane, Eswatini": 1243,
    "Kampala, Uganda": 1190,
    "Dodoma, Tanzania": 1120,
    "Brasília, Brazil": 1079,
    "Lilongwe, Malawi": 1024,
    "Andorra la Vella, Andorra": 1023,
    "Tegucigalpa, Honduras": 990,
    "Yerevan, Armenia": 989,
}


def _meant(text: str) -> Town:
    town = towns_named(all_towns(), text).meant
    assert town is not None, text
    return town


def test_capitals_lie_as_high_as_an_encyclopaedia_says() -> None:
    """If this failed, a caller in a mountain city would be sent glass for another height."""
    off = [abs(_meant(name).elevation - metres) for name, metres in CAPITALS.items()]
    assert median(off) < 35.0
    assert max(off) < 200.0


@pytest.mark.parametrize(
    ("name", "metres", "within"),
    [
        # 10,152 ft, 3,094 m: the city's own figure, seen quoted on several pages.
        ("Leadville, Colorado", 3094.0, 16.0),
        # 5,280 ft, the mile-high mark on the steps of its capitol: from memory, not seen.
        ("Denver, CO", 1609.3, 16.0),
        # From memory, not seen; the widths are those of the cities.
        ("Lhasa", 3656.0, 16.0),
        ("Johannesburg", 1753.0, 50.0),
        # Coast and hollow, from memory, not seen: a terrain model sees roofs and trees.
        ("Amsterdam, NL", -2.0, 16.0),
        ("Jericho, Palestine", -258.0, 50.0),
    ],
)
def test_towns_lie_as_high_as_is_said_of_them(name: str, metres: float, within: float) -> None:
    """If this failed, the table would hold another quantity or another unit than metres."""
    assert _meant(name).elevation == pytest.approx(metres, abs=within)


def test_a_name_of_many_towns_and_one_whose_largest_is_missing_are_not_chosen() -> None:
    """If this failed, a caller in Bolivia at 4,100 m would be answered for a coast of Peru."""
    la_paz = towns_named(all_towns(), "la paz")
    assert la_paz.meant is None
    assert la_paz.in_all > 20
    assert (la_paz.towns[0].country, la_paz.towns[1].country) == ("BO", "MX")
    el_alto = towns_named(all_towns(), "El Alto")
    assert el_alto.meant is None
    assert "BO" not in {town.country for town in el_alto.towns}
    assert towns_named(all_towns(), "El Alto, Bolivia").towns == ()
