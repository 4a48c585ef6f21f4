from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.support.flames import GRAM_AN_HOUR, demo_book, put_together

from wickwright.burn.assumptions import FLAT, ROUND, SAYS, leaf_of
from wickwright.burn.checks import BurnError, air_at
from wickwright.burn.lamp import burning_lamp, burning_parts, set_to
from wickwright.burn.parts import FULLEST, leaves
from wickwright.catalogue.measures import MEASURES

if TYPE_CHECKING:
    from wickwright.catalogue.records import Part

AIR = air_at(0.0)


def _said(error: pytest.ExceptionInfo[BurnError]) -> str:
    return str(error.value)


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        (
            "burner",
            "the lamp has no burner, and nothing burns without one: put a burner on it first",
        ),
        (
            "chimney",
            (
                "the lamp has no chimney, and without its draft the flame smokes: put a chimney on "
                "it first"
            ),
        ),
    ],
)
def test_a_lamp_that_cannot_burn_is_refused(kind: str, said: str) -> None:
    """A lamp without a burner or chimney would be given a flame."""
    with pytest.raises(BurnError) as error:
        burning_lamp(put_together("DU-401", **{kind: ""}), AIR)
    assert _said(error) == said


def test_an_electric_lamp_has_no_flame() -> None:
    """A bulb would be asked how much kerosene it burns."""
    with pytest.raises(BurnError) as error:
        burning_lamp(put_together("BX-705"), AIR)
    assert _said(error) == (
        "Electric burner, fine (BU-7200) is an electric burner and has no flame: ask for its bulb "
        "instead"
    )


def test_a_chimney_of_unknown_height_is_refused() -> None:
    """Draft would be computed from a height nobody measured."""
    parts = demo_book().parts
    with pytest.raises(BurnError) as error:
        burning_parts(parts["BU-3200"], replace(parts["CH-3296"], height=None), None, AIR)
    assert _said(error) == (
        "the height of Chimney, plain foot, standard (CH-3296) is not in the book, and the draft "
        "follows from it: measure it and write it in the table parts"
    )


def test_every_number_comes_from_the_book_where_it_has_one() -> None:
    """A measured burner would be computed with general figures."""
    lamp = burning_lamp(put_together("DU-401"), AIR)
    by_name = {one.name: one for one in lamp.inputs}
    book = demo_book().parts
    assert by_name["passages.laminar"].value == book["BU-3200"].flame["passage_laminar"].value
    assert by_name["mantle.infrared"].source == "assumption"
    assert by_name["chimney.wall"].part == "CH-3296"
    assert by_name["air.pressure"].source == "usstd1976"
    assert not any(one.default for one in lamp.inputs)
    assert lamp.volume == pytest.approx(880e-6)
    given = dict(leaves(lamp.lamps))
    assert all(given[name] == one.value for name, one in by_name.items())


def test_what_the_book_lacks_is_taken_from_general_figures_and_marked() -> None:
    """A guess would be passed off as a measurement."""
    lamp = burning_lamp(put_together("DU-401", chimney="CH-3301"), AIR)
    assumed = [one.name for one in lamp.inputs if one.default]
    assert assumed == [
        "chimney.foot_bore",
        "chimney.foot_length",
        "chimney.body_bore",
        "chimney.wall",
    ]


def test_a_flat_wick_gives_a_yellow_flame_and_a_round_one_needs_a_mantle() -> None:
    """A flat-wick lamp would be given a mantle's light."""
    flat = burning_lamp(put_together("TU-601"), AIR)
    bare = burning_lamp(put_together("DU-401", mantle=""), AIR)
    assert flat.flat
    assert flat.lamps.wick.efficacy == pytest.approx(0.19)
    assert not bare.flat
    assert bare.lamps.mantle.area == 0.0
    assert bare.lamps.wick.efficacy == 0.0


def _unmeasured(burner: str, *names: str) -> Part:
    part = demo_book().parts[burner]
    return replace(part, flame={k: v for k, v in part.flame.items() if k not in names})


@pytest.mark.parametrize(("width", "grams"), [(25.4e-3, 32.0), (16e-3, 20.15748), (38.1e-3, 48.0)])
def test_fuel_nobody_measured_follows_the_width_of_a_flat_wick(width: float, grams: float) -> None:
    """A narrow wick would be taken to burn as much as a wide one."""
    burner = _unmeasured("BU-6200", "wick_limit", "fuel_mark")
    flame = {**burner.flame, "wick_width": replace(burner.flame["wick_width"], value=width)}
    glass = demo_book().parts["CH-6214"]
    lamp = burning_parts(replace(burner, flame=flame), glass, None, AIR)
    assert lamp.lamps.wick.limit == pytest.approx(grams * GRAM_AN_HOUR)
    assert lamp.mark == pytest.approx(grams * 26.0 / 32.0 * GRAM_AN_HOUR)
    (fuel,) = (one for one in lamp.inputs if one.name == "wick.limit")
    assert fuel.default
    assert fuel.spread == pytest.approx(0.25 * fuel.value)


def test_the_width_of_a_round_wick_and_a_measured_fuel_stay_out_of_it() -> None:
    """A figure from the bench would give way to a guess."""
    parts = demo_book().parts
    flat = burning_parts(parts["BU-6200"], parts["CH-6214"], None, AIR)
    assert flat.lamps.wick.limit == pytest.approx(23.5 * GRAM_AN_HOUR)
    round_one = burning_parts(_unmeasured("BU-3200", "wick_limit"), parts["CH-3296"], None, AIR)
    assert round_one.lamps.wick.limit == pytest.approx(85.0 * GRAM_AN_HOUR)


def test_settings_of_the_wick() -> None:
    """'Half' or 'mark' would burn some other amount of fuel."""
    lamp = burning_lamp(put_together("DU-401"), AIR)
    assert set_to(lamp, "fullest") == FULLEST
    assert set_to(lamp, "mark") == pytest.approx(62.0 * GRAM_AN_HOUR)
    assert set_to(lamp, 0.5) == pytest.approx(41.0 * GRAM_AN_HOUR)


@pytest.mark.parametrize("setting", ["full", 0.1, 1.5, float("nan")])
def test_a_setting_that_is_none_is_refused(setting: str | float) -> None:
    """A misspelt setting would quietly burn at another."""
    lamp = burning_lamp(put_together("DU-401"), AIR)
    with pytest.raises(BurnError) as error:
        set_to(lamp, setting)
    assert _said(error) == (
        f"'{setting}' is not a setting of the wick: give 'fullest', 'mark', or a share of the "
        "most fuel the wick gives from 0.2 to 1"
    )


def test_every_property_of_the_book_is_assumed_somewhere_and_called_something() -> None:
    """A property could be filled in and never be used, or be named by a bare key."""
    used = {name for name in MEASURES if leaf_of(name)}
    assert set(ROUND) == set(FLAT) == used | {"fuel_mark"}
    assert {leaf_of(name) for name in used} <= set(SAYS)
    assert set(MEASURES) - used == {"fuel_mark", "wick_width"}
