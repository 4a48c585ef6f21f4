"""What can be measured about how a part burns, and the text of one measure into a value.

A measure is a number with its unit, such as ``62 g/h`` or ``45 cm2``; its spread is one
standard uncertainty, in the same unit or as a share in ``%``.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from wickwright.catalogue.cells import CellError
from wickwright.catalogue.spelling import quoted

__all__ = ["MEASURES", "Measured", "parse_measure", "parse_spread"]


@dataclass(frozen=True, slots=True)
class Measured:
    """One property of the table ``flames``.

    Attributes
    ----------
    kind : str
        Kind of part it belongs to.
    units : tuple of (str, float)
        Units it may be written in, and SI units in one of each.
    low, high : float
        Least and greatest value taken for possible [SI unit].
    says : str
        What it is, in words.
    """

    kind: str
    units: tuple[tuple[str, float], ...]
    low: float
    high: float
    says: str


_SHARE = (("%", 0.01), ("", 1.0))
_AREA = (("mm2", 1e-6), ("cm2", 1e-4))
_LENGTH = (("mm", 1e-3), ("cm", 1e-2), ("in", 0.0254))
_RATE = (("g/h", 1e-3 / 3600.0),)
_NONE = (("", 1.0),)

MEASURES: Final[dict[str, Measured]] = {
    "passage_area": Measured("burner", _AREA, 1e-6, 1e-2, "area of its air passages"),
    "passage_loss": Measured("burner", _NONE, 0.0, 1000.0, "velocity heads lost on that area"),
    "passage_laminar": Measured(
        "burner",
        (("1/cm3", 1e6),),
        0.0,
        1e11,
        "pressure over viscosity and volume flow of its air passages",
    ),
    "inner_share": Measured("burner", _SHARE, 0.0, 1.0, "share of the air through its inner tube"),
    "wick_limit": Measured("burner", _RATE, 1e-7, 3e-4, "most fuel its wick gives"),
    "fuel_mark": Measured("burner", _RATE, 1e-7, 3e-4, "fuel at the mark"),
    "wick_width": Measured("burner", _LENGTH, 1e-3, 1.0, "width of the wick, round ones unrolled"),
    "least_air": Measured(
        "burner", _NONE, 1.0, 5.0, "least air supplied over air needed that burns clean"
    ),
    "efficacy": Measured("burner", (("lm/W", 1.0),), 0.0, 5.0, "light of a yellow flame"),
    "radiant_share": Measured(
        "burner", _SHARE, 0.0, 0.6, "share of the heat that a yellow flame's glow carries off"
    ),
    "mantle_area": Measured("mantle", _AREA, 1e-4, 5e-2, "area of the web that radiates"),
    "visible": Measured("mantle", _SHARE, 0.01, 1.0, "emissivity below 0.7 micrometres"),
    "infrared": Measured("mantle", _SHARE, 0.005, 1.0, "emissivity above 0.7 micrometres"),
    "exchange": Measured(
        "mantle", (("W/K", 1.0),), 0.01, 100.0, "heat taken from the flame for each kelvin between"
    ),
    "foot_bore": Measured("chimney", _LENGTH, 5e-3, 0.3, "bore of the wide part round the flame"),
    "foot_length": Measured("chimney", _LENGTH, 5e-3, 0.5, "length of that part, from the foot"),
    "body_bore": Measured("chimney", _LENGTH, 5e-3, 0.3, "bore above it"),
    "wall": Measured("chimney", _LENGTH, 3e-4, 1e-2, "thickness of the glass"),
}
"""Every property of the table ``flames``."""

_LONGEST = 40
_TEXT = re.compile(r"(?P<number>[0-9]{1,12}(?:\.[0-9]{1,12})?|\.[0-9]{1,12})\s*(?P<unit>\S*)")


def _unit_words(of: Measured, *, share: bool = False) -> str:
    names = [unit or "no unit" for unit, _ in of.units]
    if share and "%" not in names:
        names.append("%")
    return " or ".join(names)


def _split(text: str, of: Measured, *, share: bool) -> tuple[float, str]:
    match = _TEXT.fullmatch(text) if len(text) <= _LONGEST else None
    if match is None:
        cure = f"write a number above zero and its unit: {_unit_words(of, share=share)}"
        raise CellError(text, "is not a number with its unit", cure)
    return float(match["number"]), match["unit"]


def parse_measure(name: str, text: str) -> float:
    """Read the value of a property.

    Parameters
    ----------
    name : str
        One of :data:`MEASURES`.
    text : str
        Such as ``'62 g/h'``.

    Returns
    -------
    float
        The value [SI unit of the property].

    Raises
    ------
    CellError
        When it is no number with a unit of this property, or cannot be.
    """
    of = MEASURES[name]
    number, unit = _split(text, of, share=False)
    factor = dict(of.units).get(unit)
    if factor is None:
        what = f"has no unit that {name} is measured in" if unit else "has no unit"
        raise CellError(text, what, f"write it in {_unit_words(of)}")
    value = number * factor
    if not of.low <= value <= of.high:
        first, scale = of.units[0]
        low, high = (f"{end / scale:g}" for end in (of.low, of.high))
        cure = f"write {low} to {high} {first}".rstrip()
        raise CellError(text, f"cannot be: {of.says}", cure)
    return value


def parse_spread(name: str, text: str, value: float) -> float:
    """Read a standard uncertainty.

    Parameters
    ----------
    name : str
        One of :data:`MEASURES`.
    text : str
        Such as ``'3 g/h'``, or ``'5 %'`` of the value.
    value : float
        The value it belongs to [SI unit of the property].

    Returns
    -------
    float
        One standard uncertainty [SI unit of the property].

    Raises
    ------
    CellError
        When it is neither, or above the value.

    Notes
    -----
    Of a share, ``%`` means hundredths of the whole, not of the value.
    """
    of = MEASURES[name]
    number, unit = _split(text, of, share=True)
    units = {"%": 0.01 * value, **dict(of.units)}
    if unit not in units:
        raise CellError(text, "has no unit of this property", _in_units(of))
    spread = number * units[unit]
    if spread > value > 0.0:
        raise CellError(
            text, f"is more than the value itself, {quoted(name)}", "write one standard uncertainty"
        )
    return spread


def _in_units(of: Measured) -> str:
    return f"write it in {_unit_words(of, share=True)}"
