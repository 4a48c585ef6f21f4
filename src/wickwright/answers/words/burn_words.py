"""The figures of a flame in words: what each is called, and what it leans on."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.burn.checks import LIMITS, Limit
from wickwright.terms.finding import Quantity, Severity
from wickwright.terms.source import SOURCES, Seen
from wickwright.terms.units import say, say_spread

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickwright.burn.error_bars import Driver, Estimate
    from wickwright.burn.lamp import Input
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = [
    "ROOM_TITLES",
    "TITLES",
    "graver_first",
    "input_value",
    "leading",
    "setting_words",
    "source_words",
    "value_words",
]

TITLES: Final[dict[str, str]] = {
    "light": "Light",
    "fuel": "Fuel",
    "fuel_volume": "Fuel by volume",
    "heat": "Heat",
    "run_time": "A filling lasts",
    "margin": "Air to spare before carbon",
    "draft": "Draft",
    "air_flow": "Air drawn",
    "air_ratio": "Air drawn over air needed",
    "flame": "Flame at the mantle",
    "mantle": "Mantle",
    "gas": "Gas above the mantle",
    "glass": "Hottest glass",
    "exit_temperature": "Gas at the top",
    "exit_speed": "Its speed",
}
"""What each figure of a prediction is called, in the order it is read out."""

ROOM_TITLES: Final[dict[str, str]] = {
    "carbon_dioxide": "Carbon dioxide",
    "oxygen": "Oxygen",
    "humidity": "Humidity, if nothing soaks it up",
}
"""What each figure of a room is called."""

_FUEL: Final = Limit("the fuel the wick is set to", 0.0, 1.0, 1e-3 / 3600.0, "g/h")
_UNSAID: Final = Limit("", 0.0, 0.0)


def value_words(estimate: Estimate, units: Units) -> tuple[str, str]:
    """Return a value and its standard uncertainty in words.

    Parameters
    ----------
    estimate : Estimate
        Any figure with its error bar.
    units : Units
        What to print in.

    Returns
    -------
    tuple of str
        Such as ``('356 lm', '± 270 lm')``.
    """
    value = say(Quantity(estimate.value, estimate.kind), units)
    return value, say_spread(estimate.value, estimate.spread, estimate.kind, units)


def leading(estimates: Iterable[Estimate]) -> tuple[Driver, ...]:
    """Return the numbers that figures lean on most, each once, in the order they are met.

    Parameters
    ----------
    estimates : iterable of Estimate
        The figures.

    Returns
    -------
    tuple of Driver
        Of every figure the three that matter most.
    """
    found: dict[str, Driver] = {}
    for estimate in estimates:
        for driver in estimate.drivers:
            found.setdefault(driver.name, driver)
    return tuple(found.values())


def input_value(given: Input) -> str:
    """Return a number of a lamp with its uncertainty, in the unit it is said in.

    Parameters
    ----------
    given : Input
        The number.

    Returns
    -------
    str
        Such as ``'2 ± 0.7 W/K'``.
    """
    limit = LIMITS.get(given.name, _FUEL if given.name == "fuel" else _UNSAID)
    value, spread = given.value / limit.scale, given.spread / limit.scale
    return f"{value:.4g} ± {spread:.2g} {limit.unit}".rstrip()


def source_words(source: str, titles: Mapping[str, str]) -> str:
    """Say where a number comes from.

    Parameters
    ----------
    source : str
        Key of the book's sources or of the bibliography, or ``assumption``.
    titles : mapping of str to str
        The book's own sources.

    Returns
    -------
    str
        ``'assumed'``, or the title of the source.
    """
    if source in SOURCES and SOURCES[source].seen is Seen.ASSUMPTION:
        return "assumed"
    own = {"bench": "fitted to the readings", "model": "computed above"}
    return own.get(source) or titles.get(source) or SOURCES[source].title


def setting_words(setting: str | float) -> str:
    """Say how high the wick is.

    Parameters
    ----------
    setting : str or float
        ``'fullest'``, ``'mark'``, or a share of the most fuel it gives [-].

    Returns
    -------
    str
        A phrase.
    """
    if isinstance(setting, str):
        return {"fullest": "wick at its fullest clean flame", "mark": "wick at its mark"}[setting]
    return f"wick at {100 * setting:.0f} % of the most fuel it gives"


def graver_first(findings: Iterable[Finding], least: Severity = Severity.GOOD) -> list[Finding]:
    """Return findings above a severity, gravest first, each once.

    Parameters
    ----------
    findings : iterable of Finding
        Of several answers.
    least : Severity
        What is not worth saying.

    Returns
    -------
    list of Finding
        Those of one gravity stay in their order.
    """
    worth: list[Finding] = []
    for finding in findings:
        if finding.severity > least and finding not in worth:
            worth.append(finding)
    return sorted(worth, key=lambda finding: -finding.severity)
