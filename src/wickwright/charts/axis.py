"""What an axis measures, in the units the user chose, and where its ticks stand."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

__all__ = ["SYSTEMS", "Axis", "ChartError", "Scale", "axis_of", "nice_ticks", "tick_text"]

SYSTEMS: Final = ("metric", "us")
"""The units a user can choose."""


class ChartError(ValueError):
    """Numbers or words that make no chart; the message says what would."""


@dataclass(frozen=True, slots=True)
class Axis:
    """A quantity in the units of the user.

    Attributes
    ----------
    title : str
        What it is.
    unit : str
        Unit it is shown in; blank for none.
    factor, offset : float
        Shown value = SI value x factor + offset.
    """

    title: str
    unit: str
    factor: float
    offset: float = 0.0

    def shown(self, value: float) -> float:
        """Return a value as it is shown [unit of the axis]."""
        return value * self.factor + self.offset

    @property
    def heading(self) -> str:
        """Title with its unit, such as ``'Light, lm'``."""
        return f"{self.title}, {self.unit}" if self.unit else self.title

    def says(self, value: float, digits: int = 3) -> str:
        """Put a value into words, such as ``'1,450 lm'``.

        Parameters
        ----------
        value : float
            In SI units.
        digits : int
            Digits that count [-].

        Returns
        -------
        str
            Rounded, with its unit.
        """
        shown = self.shown(value)
        if not math.isfinite(shown):
            return "nothing"
        size = math.floor(math.log10(abs(shown))) if shown else 0
        places = max(0, digits - 1 - size)
        number = f"{round(shown, digits - 1 - size):,.{places}f}"
        return f"{number} {self.unit}" if self.unit else number


_AXES: Final[dict[str, tuple[Axis, Axis]]] = {
    "elevation": (Axis("Elevation", "m", 1.0), Axis("Elevation", "ft", 1 / 0.3048)),
    "length": (Axis("Height", "mm", 1e3), Axis("Height", "in", 1 / 0.0254)),
    "height": (Axis("Height", "m", 1.0), Axis("Height", "in", 1 / 0.0254)),
    "light": (Axis("Light", "lm", 1.0), Axis("Light", "lm", 1.0)),
    "fuel": (Axis("Fuel", "g/h", 3.6e6), Axis("Fuel", "oz/h", 3600 / 0.028349523125)),
    "share": (Axis("Share", "%", 100.0), Axis("Share", "%", 100.0)),
    "trace": (Axis("Share", "ppm", 1e6), Axis("Share", "ppm", 1e6)),
    "time": (Axis("Time", "h", 1 / 3600), Axis("Time", "h", 1 / 3600)),
    "temperature": (
        Axis("Temperature", "°C", 1.0, -273.15),
        Axis("Temperature", "°F", 1.8, -459.67),
    ),
}
_MINUS: Final = "\N{MINUS SIGN}"
_FINEST: Final = 6
_FLUID_OUNCE: Final = 29.5735295625e-6  # m3, US


def axis_of(
    quantity: str, title: str, system: str = "metric", density: float | None = None
) -> Axis:
    """Return the axis of a quantity in the units the user chose.

    Parameters
    ----------
    quantity : str
        ``'elevation'``, ``'length'``, ``'height'``, ``'light'``, ``'fuel'``, ``'share'``,
        ``'trace'``, ``'time'`` or ``'temperature'``.
    title : str
        What stands beside the axis.
    system : str
        One of :data:`SYSTEMS`.
    density : float or None
        Density of the fuel, so that ``us`` can show fluid ounces [kg/m3]; None for ounces by
        weight.

    Returns
    -------
    Axis
        From SI units.

    Raises
    ------
    ChartError
        When there is no such quantity or no such system of units.
    """
    if system not in SYSTEMS:
        msg = f"There are no units '{system}': choose {' or '.join(SYSTEMS)}."
        raise ChartError(msg)
    if quantity not in _AXES:
        msg = f"There is no axis for '{quantity}': the axes are {', '.join(_AXES)}."
        raise ChartError(msg)
    axis = _AXES[quantity][SYSTEMS.index(system)]
    if quantity == "fuel" and system == "us" and density is not None:
        return Axis(title, "US fl oz/h", 3600 / (density * _FLUID_OUNCE))
    return Axis(title, axis.unit, axis.factor, axis.offset)


def nice_ticks(low: float, high: float, most: int = 6) -> tuple[float, ...]:
    """Return round numbers that cover a range.

    Parameters
    ----------
    low, high : float
        Range to be covered [unit of the axis].
    most : int
        About how many ticks there is room for [-].

    Returns
    -------
    tuple of float
        Rising, the first at or below ``low``, the last at or above ``high``; steps of 1, 2,
        2.5 or 5 times a power of ten [unit of the axis].
    """
    if not high > low:
        low, high = low - 0.5 * (abs(low) or 1.0), high + 0.5 * (abs(high) or 1.0)
    rough = (high - low) / max(1, most - 1)
    size = 10.0 ** math.floor(math.log10(rough))
    step = next(part * size for part in (1.0, 2.0, 2.5, 5.0, 10.0) if part * size >= rough * 0.999)
    first, last = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return tuple(step * count for count in range(first, last + 1))


def tick_text(value: float, step: float) -> str:
    """Print a tick.

    Parameters
    ----------
    value : float
        Where it stands [unit of the axis].
    step : float
        Distance to the next one [unit of the axis].

    Returns
    -------
    str
        With as many places as the step needs, and a comma between thousands.
    """
    places = next(count for count in range(_FINEST + 1) if _whole(step, count) or count == _FINEST)
    return f"{value + 0.0:,.{places}f}".replace("-", _MINUS)


def _whole(step: float, places: int) -> bool:
    scaled = step * 10.0**places
    return abs(scaled - round(scaled)) <= 1e-6 * scaled


@dataclass(frozen=True, slots=True)
class Scale:
    """From a shown value to a place on the paper.

    Attributes
    ----------
    low, high : float
        Ends of the axis [unit of the axis].
    start, end : float
        Where the ends stand [px].
    """

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return where a shown value stands [px]."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)
