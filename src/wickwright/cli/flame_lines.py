"""How the lamp of a route burns: a few figures with their error bars."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers import Burns, OnABulb
from wickwright.answers.words.wording import sentence
from wickwright.cli.layout import paragraph, table
from wickwright.cli.words import listed
from wickwright.terms.finding import Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from wickwright.answers import BurnAnswer, RouteFlame
    from wickwright.burn.error_bars import Estimate
    from wickwright.terms.units import Units

__all__ = ["flame_lines"]

_Row = tuple[str, str, str]


def flame_lines(
    flame: RouteFlame, before: BurnAnswer, units: Units, width: int, *, why: bool = False
) -> list[str]:
    """Lay out light, fuel and air to spare.

    Parameters
    ----------
    flame : RouteFlame
        How the finished lamp burns.
    before : BurnAnswer
        How it burnt as it was; told where a flame gives way to a bulb or a bulb to a flame.
    units : Units
        What to print in.
    width : int
        Of the page [signs].
    why : bool
        Whether to name the numbers each figure leans on most.

    Returns
    -------
    list of str
        Lines.
    """
    burns = flame.burns
    if isinstance(burns, Burns):
        lines = _figures(_of_flame(flame, burns, units) + _before(before, burns, units), width)
        return lines + (_leaning(flame, burns, width) if why else [])
    if isinstance(burns, OnABulb) and burns.light is not None:
        light = ("light", _give_or_take(burns.light, units), "from its bulb")
        return _figures([light, *_before(before, burns, units)], width)
    (finding,) = burns.findings
    words = sentence(finding, units)
    return ["  LIGHT NOT KNOWN", *paragraph(f"{words.says} {words.cure}", width, "    ")]


def _figures(rows: list[_Row], width: int) -> list[str]:
    head = "  HOW IT BURNS HERE (± one standard uncertainty)"
    return [head, *table(rows, width, indent="    ", wrapped=(2,))]


def _of_flame(flame: RouteFlame, burns: Burns, units: Units) -> list[_Row]:
    found = burns.prediction
    hours = found["run_time"]
    lasts = f"a full font lasts {_give_or_take(hours, units)}" if hours.value > 0.0 else ""
    rows = [
        ("light", _give_or_take(found["light"], units), "at its fullest clean flame"),
        ("fuel", _give_or_take(found["fuel"], units), lasts),
    ]
    if flame.at_mark is not None:
        rows.append(("air", _spare(flame.at_mark, units), "with the wick at its mark"))
    return rows


def _spare(margin: Estimate, units: Units) -> str:
    """Say how much air there is to spare, or lacking."""
    word = "to spare" if margin.value >= 0.0 else "too little"
    size = say(Quantity(abs(margin.value), margin.kind), units)
    return f"{size} {word} ± {say(Quantity(margin.spread, margin.kind), units)}"


def _give_or_take(one: Estimate, units: Units) -> str:
    value, spread = (say(Quantity(each, one.kind), units) for each in (one.value, one.spread))
    return f"{value} ± {spread}"


def _before(before: BurnAnswer, after: BurnAnswer, units: Units) -> list[_Row]:
    """Set the light of a bulb beside that of the flame it takes the place of, or gives way to."""
    if isinstance(before, Burns) and isinstance(after, OnABulb):
        return [("before", _give_or_take(before.prediction["light"], units), "from its flame")]
    if isinstance(before, OnABulb) and isinstance(after, Burns) and before.light:
        return [("before", _give_or_take(before.light, units), "from its bulb")]
    return []


def _leaning(flame: RouteFlame, burns: Burns, width: int) -> list[str]:
    """Name the three numbers that matter most for each figure, with their sources."""
    figures = {"light": burns.prediction["light"], "fuel": burns.prediction["fuel"]}
    if flame.at_mark is not None:
        figures["air"] = flame.at_mark
    lines = []
    for name, one in figures.items():
        named = [f"{driver.says} ({driver.source})" for driver in one.drivers]
        lines += paragraph(f"The {name} leans most on {listed(named)}.", width, "    ", "      ")
    return lines
