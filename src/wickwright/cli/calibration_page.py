"""The page of a fit to bench readings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.burn.checks import LIMITS
from wickwright.cli.layout import bullet, paragraph, table
from wickwright.terms.finding import Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from wickwright.burn.calibrating import Calibration, Residual
    from wickwright.terms.units import Units

__all__ = ["calibration_lines"]

_SHOWN: Final = 6


def _figure(name: str, value: float) -> str:
    return f"{value / LIMITS[name].scale:.3g}"


def calibration_lines(found: Calibration, units: Units, width: int) -> list[str]:
    """Lay out what readings say about a burner.

    Parameters
    ----------
    found : Calibration
        The fit.
    units : Units
        What to print in.
    width : int
        Of the page [signs].

    Returns
    -------
    list of str
        Figures with their intervals, what the readings do not determine, and residuals.
    """
    lines = paragraph(
        f"{len({one.row for one in found.residuals})} readings of the burner {found.burner}; "
        f"scatter {found.scatter:.2f} of what is taken for the bench's own (near 1 is right).",
        width,
    )
    if found.fitted:
        rows = [("Fitted", "value", "95 % interval", "before", "")]
        rows += [
            (
                f"  {one.says}",
                _figure(one.name, one.value),
                f"{_figure(one.name, one.low)} to {_figure(one.name, one.high)}",
                _figure(one.name, one.before),
                LIMITS[one.name].unit,
            )
            for one in found.fitted
        ]
        lines += table(rows, width, indent="", rights=(1, 2, 3))
    if found.held:
        lines.append("Not determined by these readings, and left as it was:")
        for held in found.held:
            value = f"{_figure(held.name, held.value)} {LIMITS[held.name].unit}".rstrip()
            lines += bullet(f"{held.says}, {value}: {held.why}", width)
    return [*lines, *_residual_lines(found, units, width)]


def _share(one: Residual) -> float:
    return one.measured / one.computed - 1.0


def _residual_lines(found: Calibration, units: Units, width: int) -> list[str]:
    """Show the residuals that are largest."""
    by_size = sorted(found.residuals, key=lambda one: -abs(_share(one)))
    worst = sorted(by_size[:_SHOWN], key=lambda one: (one.row, one.what))
    rows = [("Largest residuals", "read", "computed", "apart")]
    rows += [
        (
            f"  row {one.row}, {one.what}",
            say(Quantity(one.measured, one.kind), units),
            say(Quantity(one.computed, one.kind), units),
            f"{100 * _share(one):+.1f} %",
        )
        for one in worst
    ]
    return table(rows, width, indent="", rights=(1, 2, 3))
