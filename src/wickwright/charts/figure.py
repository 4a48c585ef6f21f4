"""A chart as data: what is drawn, before anything is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.charts.axis import ChartError

if TYPE_CHECKING:
    from wickwright.charts.axis import Axis

__all__ = ["INKS", "Band", "Dot", "Figure", "Ink", "Line", "Mark", "Panel", "Stop", "Zone"]

_ENOUGH: Final = 2


@dataclass(frozen=True, slots=True)
class Ink:
    """How a line is told from others: colour, and dash and mark for a grey print."""

    colour: str
    dash: str
    mark: str


INKS: Final = (
    Ink("#123f7e", "", "disc"),
    Ink("#c2570c", "9 4", "square"),
    Ink("#2d7a4b", "2.5 3.5", "triangle"),
    Ink("#7b2d83", "13 4 2.5 4", "diamond"),
    Ink("#7a6a10", "5 3", "ring"),
    Ink("#3b3b3b", "16 5", "cross"),
)
"""Dark enough to read as text on white; told apart without their colours."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a panel.

    Attributes
    ----------
    name : str
        What it is; stands at its end.
    x, y : tuple of float
        Its points in SI units; NaN where there is none.
    low, high : tuple of float
        Ends of one standard uncertainty at each point; empty for none.
    ink : int
        Which of :data:`INKS`; one ink for one thing over all panels.
    """

    name: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    low: tuple[float, ...] = ()
    high: tuple[float, ...] = ()
    ink: int = 0

    def __post_init__(self) -> None:
        """Refuse a line that cannot be drawn."""
        lengths = {len(self.x), len(self.y), *(len(end) for end in (self.low, self.high) if end)}
        if len(lengths) > 1 or bool(self.low) != bool(self.high):
            msg = (
                f"The line '{self.name}' has {len(self.x)} places, {len(self.y)} values, "
                f"{len(self.low)} lower and {len(self.high)} upper ends: give as many of each, "
                "or no ends at all."
            )
            raise ChartError(msg)
        if sum(math.isfinite(value) for value in self.y) < _ENOUGH:
            msg = f"The line '{self.name}' has fewer than two points: give two or more numbers."
            raise ChartError(msg)

    def _real(self) -> list[tuple[float, float]]:
        return [(x, y) for x, y in zip(self.x, self.y, strict=True) if math.isfinite(y)]

    @property
    def first(self) -> tuple[float, float]:
        """Its first point that is a number."""
        return self._real()[0]

    @property
    def last(self) -> tuple[float, float]:
        """Its last point that is a number."""
        return self._real()[-1]


@dataclass(frozen=True, slots=True)
class Band:
    """An area between two edges that is not one line's uncertainty; points in SI units."""

    name: str
    edge: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Stop:
    """A limit: a straight line across the panel.

    Attributes
    ----------
    value : float
        Where it stands, in SI units.
    says : str
        What it is.
    upright : bool
        Whether it stands on the horizontal axis.
    firm : bool
        Whether it is drawn in full; else finely dashed, for the milder of several.
    limit : bool
        Whether it is a limit, in the colour of limits; else a thing that is there.
    """

    value: float
    says: str
    upright: bool = False
    firm: bool = True
    limit: bool = True


@dataclass(frozen=True, slots=True)
class Zone:
    """A stretch of the vertical axis that is shaded, with words in it; SI units."""

    low: float
    high: float
    says: str
    strong: bool = False


@dataclass(frozen=True, slots=True)
class Dot:
    """A point with words beside it; SI units."""

    x: float
    y: float
    says: str
    ink: int = 0


@dataclass(frozen=True, slots=True)
class Mark:
    """A place on the horizontal axis of all panels, with words at the top; SI units."""

    value: float
    says: str


@dataclass(frozen=True, slots=True)
class Panel:
    """One field of a chart.

    Attributes
    ----------
    axis : Axis
        Its vertical axis.
    lines : tuple of Line
        What it shows.
    stops, zones, dots, bands : tuple
        Limits, shaded stretches, points and areas.
    tall : float
        Height of the field [px].
    least, most : float or None
        Values the axis must reach at least, in SI units.
    name_lines : bool
        Whether lines are named at their ends.
    key : bool
        Whether lines are named in a key inside the field: for lines that run together.
    """

    axis: Axis
    lines: tuple[Line, ...]
    stops: tuple[Stop, ...] = ()
    zones: tuple[Zone, ...] = ()
    dots: tuple[Dot, ...] = ()
    bands: tuple[Band, ...] = ()
    tall: float = 200.0
    least: float | None = None
    most: float | None = None
    name_lines: bool = True
    key: bool = False


@dataclass(frozen=True, slots=True)
class Figure:
    """A whole chart.

    Attributes
    ----------
    title : str
        What the chart says, in a sentence.
    subtitle : str
        What is drawn, and under which conditions.
    axis : Axis
        The horizontal axis of all panels.
    panels : tuple of Panel
        From the top down.
    marks : tuple of Mark
        Places on the horizontal axis.
    note : str
        Sources and cautions, in small letters below.
    wide : float
        Width of the drawing [px].
    rounded : bool
        Whether the horizontal axis ends at round numbers; else where the lines end.
    """

    title: str
    subtitle: str
    axis: Axis
    panels: tuple[Panel, ...]
    marks: tuple[Mark, ...] = ()
    note: str = ""
    wide: float = 880.0
    rounded: bool = False

    def __post_init__(self) -> None:
        """Refuse a chart of nothing."""
        if not self.panels or not all(panel.lines for panel in self.panels):
            msg = f"The chart '{self.title}' has a panel without a line: give each at least one."
            raise ChartError(msg)
