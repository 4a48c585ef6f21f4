"""ISO 286 tolerances and clearances; isofits 1.0 (MIT) and its table stand as judge."""

from __future__ import annotations

import isofits
import pytest

from wickwright.fit.clearance import clearance
from wickwright.fit.iso286 import standard_tolerance, tolerance_unit
from wickwright.terms.dimension import Dimension


@pytest.mark.parametrize(
    ("size", "unit", "seventh"),
    [(25, 1.307, 21), (40, 1.561, 25), (60, 1.856, 30), (100, 2.173, 35)],
)
def test_unit_and_seventh_grade(size: float, unit: float, seventh: int) -> None:
    """Tolerance unit and IT7 of the steps from 18 to 120 mm would not be those of ISO 286-1."""
    assert round(tolerance_unit(size / 1000) * 1e6, 3) == unit
    assert round(standard_tolerance(size / 1000, 7) * 1e6) == seventh


@pytest.mark.parametrize(("size", "printed"), [(8, 0.36), (100, 0.87)])
def test_fourteenth_grade(size: float, printed: float) -> None:
    """IT14 of 6 to 10 and of 80 to 120 mm [mm] would not be as quoted from ISO 286-1."""
    assert round(standard_tolerance(size / 1000, 14) * 1e3, 2) == printed


@pytest.mark.parametrize("grade", range(6, 12))
@pytest.mark.parametrize("size", [4, 8, 14, 25, 40, 60, 100, 150, 200, 300, 350])
def test_grades_agree_with_the_table(size: int, grade: int) -> None:
    """A grade would leave the printed H holes by more than their rounding: up to 0.7 um in the \
small ones, up to 3 % in the large ones (isofits as judge).
    """
    width = isofits.isotol("hole", size, f"H{grade}", "upper")
    computed = standard_tolerance(size / 1000, grade) * 1e6
    assert computed == pytest.approx(width, abs=0.7, rel=0.03)


@pytest.mark.parametrize(
    ("size", "hole", "shaft", "printed"),
    [
        (25, "H7", "g6", (7, 41)),
        (25, "H7", "h6", (0, 34)),
        (50, "H7", "f7", (25, 75)),
        (100, "H8", "f7", (36, 125)),
        (30, "H7", "p6", (-35, -1)),
    ],
)
def test_clearance_of_iso_fits(size: int, hole: str, shaft: str, printed: tuple[int, int]) -> None:
    """The worst case would not be the clearance of an ISO fit [um], by isofits and as known."""
    outer, inner = zone("hole", size, hole), zone("shaft", size, shaft)
    worst = clearance(outer, inner).worst
    assert (worst.low * 1e6, worst.high * 1e6) == pytest.approx(printed)
    assert isofits.isofit(size, hole, shaft) == printed


def zone(body: str, size: int, fit: str) -> Dimension:
    """Take a tolerance zone from the table of isofits."""
    upper, lower = isofits.isotol(body, size, fit, "both")
    at = size / 1000
    return Dimension(at, at + lower * 1e-6, at + upper * 1e-6, fit)


def test_a_border_belongs_to_the_step_below() -> None:
    """30 mm would be reckoned in the step from 30 to 50 mm."""
    assert tolerance_unit(0.030) == tolerance_unit(0.019)
    assert tolerance_unit(0.030) < tolerance_unit(0.0301)
    assert tolerance_unit(0.0005) == tolerance_unit(0.003)


@pytest.mark.parametrize("size", [0.0, -1.0, 0.501])
def test_sizes_outside_the_steps_are_refused(size: float) -> None:
    """A size that ISO 286 has no step for would get a tolerance."""
    with pytest.raises(ValueError, match="steps") as caught:
        tolerance_unit(size)
    told = f"{size * 1000:g} mm is outside the steps of ISO 286: they end at 500 mm"
    assert str(caught.value) == told


def test_grades_outside_the_table_are_refused() -> None:
    """A grade that is not reckoned would get a tolerance."""
    with pytest.raises(ValueError, match="IT5") as caught:
        standard_tolerance(0.1, 5)
    assert str(caught.value) == "IT5 is not reckoned here: write a grade from 6 to 14"
