"""Quantities into text and back, in the units the user chose. Nowhere else."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.terms.finding import Kind, Quantity, Range

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.terms.finding import Fact

__all__ = [
    "ELEVATION_RANGE",
    "TEMPERATURE_RANGE",
    "Units",
    "UnitsError",
    "parse_elevation",
    "parse_temperature",
    "say",
    "say_spread",
]

_FEET = 0.3048
_LENGTHS: dict[str, float] = {
    **dict.fromkeys(("ft", "feet", "foot"), _FEET),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1.0),
    **dict.fromkeys(("km", "kilometre", "kilometres", "kilometer", "kilometers"), 1000.0),
}
"""Units an elevation may be given in [m]."""
_AMOUNT = re.compile(r"(?P<number>[+-]?\d[\d .,'\u2019]*?)\s*(?P<unit>[^\W\d]+)?\.?")
_FOOT_MARK = re.compile(r"(?<=\d) ?['\u2019\u2032]$")
_GROUPED = re.compile(r"[+-]?(\d+|\d{1,3}(?P<mark>[ ,'\u2019])\d{3}(?:(?P=mark)\d{3})*)(\.\d+)?")
"""A number with a point before its fraction, its thousands apart or not."""
_POINT_AT_THOUSANDS = re.compile(r"^[+-]?\d{1,3}\.\d{3}$")
ELEVATION_RANGE = (-430.0, 6000.0)
"""Lowest shore and highest dwelling we answer for [m]."""


class UnitsError(ValueError):
    """A text that is no quantity; the message says what to write."""


@dataclass(frozen=True, slots=True)
class Units:
    """The units an edge prints in.

    Attributes
    ----------
    system : {'metric', 'us'}
        Millimetres and metres, or inches and feet.
    currency : str
        Printed before money.
    """

    system: str = "metric"
    currency: str = ""


def parse_elevation(text: str) -> float:
    """Read an elevation.

    Parameters
    ----------
    text : str
        Such as ``'5200ft'``, ``"5200'"``, ``'1,700 m'``, ``'5 200 ft'`` or ``'1.7 km'``; 0 needs no
        unit.

    Returns
    -------
    float
        Elevation above sea level [m].

    Raises
    ------
    UnitsError
        When the unit is missing or unknown, the figure can be read in two ways, or no one
        lives there.
    """
    plain = _FOOT_MARK.sub(" ft", " ".join(text.replace("\u2212", "-").split()))
    match = _AMOUNT.fullmatch(plain)
    if match is None:
        msg = f"'{text}' is not an elevation: write a number with its unit, such as 5200ft or 1700m"
        raise UnitsError(msg)
    if match["unit"] is None:
        return _bare_elevation(text, match["number"])
    name = match["unit"].lower()
    unit = _LENGTHS.get(name)
    if unit is None:
        msg = (
            f"'{text}' is in a unit that elevations are not read in, '{match['unit']}': "
            "write m, km or ft, such as 1700m or 5200ft"
        )
        raise UnitsError(msg)
    metres = _elevation_number(text, match["number"], thousands=not name.startswith("k")) * unit
    low, high = ELEVATION_RANGE
    if not low <= metres <= high:
        msg = (
            f"{text} is {metres:.0f} m; the desk answers for {low:.0f} m (the lowest shore) "
            f"to {high:.0f} m (the highest dwellings): check the figure and its unit"
        )
        raise UnitsError(msg)
    return metres


def _bare_elevation(text: str, figure: str) -> float:
    """Read a figure without a unit: 0 needs none, others are asked about."""
    number = _elevation_number(text, figure, thousands=True)
    if number:
        msg = (
            f"'{text}' has no unit: {number:,.0f} m, or {number:,.0f} ft, which is "
            f"{number * _FEET:,.0f} m: write the unit behind it, such as 5200ft or 1700m"
        )
        raise UnitsError(msg)
    return number


_TEMPERATURE = re.compile(r"(?P<number>[+-]?\d+(?:\.\d+)?)\s*°?\s*(?P<unit>[CFK])", re.IGNORECASE)
TEMPERATURE_RANGE = (233.15, 573.15)
"""Where one coefficient of expansion serves [K]: -40 °C and 300 °C."""


def parse_temperature(text: str) -> float:
    """Read a temperature.

    Parameters
    ----------
    text : str
        Such as ``'110C'``, ``'230 °F'`` or ``'383 K'``.

    Returns
    -------
    float
        Temperature [K].

    Raises
    ------
    UnitsError
        When the unit is missing or unknown, or no part of a lamp is so cold or so hot.
    """
    match = _TEMPERATURE.fullmatch(" ".join(text.replace("\u2212", "-").split()))
    if match is None:
        msg = (
            f"'{text}' is not a temperature: write a number with its unit, such as 110C, 230F "
            "or 383K"
        )
        raise UnitsError(msg)
    kelvin = _KELVIN[match["unit"].upper()](float(match["number"]))
    low, high = TEMPERATURE_RANGE
    if not low <= kelvin <= high:
        msg = (
            f"{text} is {kelvin - 273.15:.0f} °C; how parts grow is known from "
            f"{low - 273.15:.0f} °C to {high - 273.15:.0f} °C: check the figure and its unit"
        )
        raise UnitsError(msg)
    return kelvin


_KELVIN: dict[str, Callable[[float], float]] = {
    "C": lambda value: value + 273.15,
    "F": lambda value: (value - 32) / 1.8 + 273.15,
    "K": lambda value: value,
}


def _elevation_number(text: str, number: str, *, thousands: bool) -> float:
    """Read a number; a mark that may stand before thousands or before a fraction is refused."""
    match = _GROUPED.fullmatch(number)
    if match is None or (thousands and _POINT_AT_THOUSANDS.search(number)):
        msg = (
            f"'{text}' can be read in more than one way: write a point before a fraction and "
            "leave thousands together, such as 5.2km, 5200ft or 5,200ft"
        )
        raise UnitsError(msg)
    return float(number.replace(match["mark"], "") if match["mark"] else number)


def _millimetres(value: float) -> str:
    fine = abs(value) < _FINE
    return f"{value * 1000:.2f} mm" if fine else f"{value * 1000:.1f} mm"


def _money(value: float) -> str:
    return f"{value / 100:,.2f}"


def _share(value: float) -> str:
    return f"{value * 1e6:,.0f} ppm" if abs(value) < _RARE else f"{value * 100:.1f} %"


def _time(value: float) -> str:
    return f"{value / 60:.0f} min" if abs(value) < _HOUR else f"{value / _HOUR:.1f} h"


def _fahrenheit(kelvin: float) -> float:
    return (kelvin - 273.15) * 1.8 + 32


_FINE = 0.010
"""Lengths below this are printed to a hundredth of a millimetre [m]."""
_RARE = 0.01
"""Shares of the air below this are printed in parts per million [-]."""
_HOUR = 3600.0
"""Times below this are printed in minutes [s]."""

_METRIC: dict[Kind, Callable[[float], str]] = {
    Kind.LENGTH: _millimetres,
    Kind.ELEVATION: lambda value: f"{value:,.0f} m",
    Kind.MASS: lambda value: f"{value * 1000:,.0f} g",
    Kind.TEMPERATURE: lambda value: f"{value - 273.15:.0f} °C",
    Kind.PRESSURE: lambda value: f"{value / 100:.0f} hPa",
    Kind.ANGLE: lambda value: f"{math.degrees(value):.1f}°",
    Kind.POWER: lambda value: f"{value:,.0f} W",
    Kind.MONEY: _money,
    Kind.COUNT: lambda value: f"{value:.0f}",
    Kind.RATIO: lambda value: f"{value * 100:.0f} %",
    Kind.SHARE: _share,
    Kind.TIME: _time,
    Kind.VOLUME: lambda value: f"{value:,.1f} m³",
    Kind.AREA: lambda value: f"{value * 1e4:,.0f} cm²",
    Kind.AIR_CHANGE: lambda value: f"{value * _HOUR:.2f} air changes an hour",
    Kind.DISTANCE: lambda value: f"{value:.2f} m",
    Kind.LIGHT: lambda value: f"{value:,.0f} lm",
    Kind.MASS_FLOW: lambda value: f"{value * 3.6e6:.1f} g/h",
    Kind.VOLUME_FLOW: lambda value: f"{value * 3.6e9:.1f} ml/h",
    Kind.SPEED: lambda value: f"{value:.2f} m/s",
    Kind.DRAFT: lambda value: f"{value:.2f} Pa",
    Kind.STRESS: lambda value: f"{value / 1e6:.1f} MPa",
}
_US: dict[Kind, Callable[[float], str]] = {
    **_METRIC,
    Kind.LENGTH: lambda value: f"{value / 0.0254:.3f} in",
    Kind.ELEVATION: lambda value: f"{value / _FEET:,.0f} ft",
    Kind.MASS: lambda value: f"{value / 0.45359237:.2f} lb",
    Kind.TEMPERATURE: lambda value: f"{_fahrenheit(value):.0f} °F",
    Kind.PRESSURE: lambda value: f"{value / 3386.389:.2f} inHg",
    Kind.VOLUME: lambda value: f"{value / _FEET**3:,.0f} ft³",
    Kind.AREA: lambda value: f"{value / 0.0254**2:,.1f} in²",
    Kind.DISTANCE: lambda value: f"{value / 0.0254:.0f} in",
    Kind.VOLUME_FLOW: lambda value: f"{value * _HOUR / 29.5735295625e-6:.2f} fl oz/h",
    Kind.SPEED: lambda value: f"{value / _FEET:.1f} ft/s",
    Kind.DRAFT: lambda value: f"{value / 249.08891:.4f} inH2O",
    Kind.STRESS: lambda value: f"{value / 6894.757:,.0f} psi",
}


def _number(value: float, kind: Kind, units: Units) -> str:
    text = (_US if units.system == "us" else _METRIC)[kind](value)
    return f"{units.currency} {text}" if kind is Kind.MONEY and units.currency else text


def _range(value: Range, units: Units) -> str:
    low, high = (
        None if end is None else _number(end, value.kind, units) for end in (value.low, value.high)
    )
    if low is None:
        return f"at most {high}"
    return f"at least {low}" if high is None else f"{low} to {high}"


def say(fact: Fact, units: Units) -> str:
    """Put one fact into words.

    Parameters
    ----------
    fact : Fact
        A text, a count, a quantity, a range or a list of texts.
    units : Units
        What to print in.

    Returns
    -------
    str
        For example ``'8.0°'`` or ``'at least 310.0 mm'``.
    """
    if isinstance(fact, Quantity):
        return _number(fact.value, fact.kind, units)
    if isinstance(fact, Range):
        return _range(fact, units)
    return ", ".join(fact) if isinstance(fact, tuple) else str(fact)


def say_spread(value: float, spread: float, kind: Kind, units: Units) -> str:
    """Put one standard uncertainty into words, in the unit its value is said in.

    Parameters
    ----------
    value, spread : float
        The value and its uncertainty [SI unit of the kind].
    kind : Kind
        What is measured.
    units : Units
        What to print in.

    Returns
    -------
    str
        For example ``'± 27 lm'``; of a temperature the difference, such as ``'± 40 °C'``.
    """
    us = units.system == "us"
    if kind is Kind.TEMPERATURE:
        return f"± {spread * 1.8:.0f} °F" if us else f"± {spread:.0f} °C"
    if kind is Kind.SHARE and abs(value) >= _RARE:
        return f"± {spread * 100:.1f} %"
    if kind is Kind.TIME and abs(value) >= _HOUR:
        return f"± {spread / _HOUR:.1f} h"
    if kind is Kind.DISTANCE and us:
        return f"± {spread / 0.0254:.1f} in"
    return f"± {say(Quantity(spread, kind), units)}"
