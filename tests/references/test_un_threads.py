"""UN thread limits against printed values of ASME B1.1.

The rows of 1/4-20 are quoted from the standard's table by a public page; those marked
'from memory, not seen' are not.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickwright.fit.un_thread import INCH, external_limits, internal_limits

if TYPE_CHECKING:
    from wickwright.fit.clearance import Gap


def inches(gap: Gap, places: int = 4) -> tuple[float, float]:
    """Return both limits in inches, rounded as they are printed."""
    return round(gap.low / INCH, places), round(gap.high / INCH, places)


def test_quarter_twenty_2a() -> None:
    """Allowance, major or pitch diameter of 1/4-20 UNC-2A would not be those of ASME B1.1."""
    found = external_limits(0.25 * INCH, INCH / 20)
    assert round(found.allowance / INCH, 4) == 0.0011
    assert inches(found.major) == (0.2408, 0.2489)
    assert inches(found.pitch) == (0.2127, 0.2164)


def test_quarter_twenty_2b() -> None:
    """Pitch or minor diameter of 1/4-20 UNC-2B would not be those of ASME B1.1."""
    found = internal_limits(0.25 * INCH, INCH / 20)
    assert inches(found.pitch) == (0.2175, 0.2224)
    assert inches(found.minor, 3) == (0.196, 0.207)
    assert found.major == 0.25 * INCH


def test_quarter_twenty_unrounded() -> None:
    """The formulas themselves would be off: six figures of a computation by hand."""
    outer = external_limits(0.25 * INCH, INCH / 20, rounded=False)
    inner = internal_limits(0.25 * INCH, INCH / 20, rounded=False)
    assert round(outer.allowance / INCH, 6) == 0.001119
    assert inches(outer.major, 5) == (0.24074, 0.24888)
    assert inches(outer.pitch, 5) == (0.21267, 0.2164)
    assert inches(inner.pitch, 5) == (0.21752, 0.22237)


def test_half_thirteen_rounding_order() -> None:
    """1/2-13 UNC-2A (from memory, not seen) would come out 0.0001 in too large at its least."""
    printed = external_limits(0.5 * INCH, INCH / 13)
    assert inches(printed.pitch) == (0.4435, 0.4485)
    exact = external_limits(0.5 * INCH, INCH / 13, rounded=False)
    assert round(exact.allowance / INCH, 6) == 0.001489
    assert inches(exact.pitch, 5) == (0.44358, 0.44855)
    inner = internal_limits(0.5 * INCH, INCH / 13, rounded=False)
    assert inches(inner.pitch, 5) == (0.45004, 0.45649)


def test_seven_eighths_fourteen() -> None:
    """7/8-14 with an engagement of one diameter would be off: computed by hand."""
    outer = external_limits(0.875 * INCH, INCH / 14, rounded=False)
    inner = internal_limits(0.875 * INCH, INCH / 14, rounded=False)
    assert inches(outer.pitch, 5) == (0.82156, 0.82698)
    assert inches(inner.pitch, 5) == (0.82861, 0.83565)


@pytest.mark.parametrize(("name", "major"), [("1A", (0.2367, 0.2489)), ("3A", (0.2419, 0.25))])
def test_other_external_classes(name: str, major: tuple[float, float]) -> None:
    """Major diameters of 1/4-20 1A and 3A (from memory, not seen) would be off."""
    assert inches(external_limits(0.25 * INCH, INCH / 20, name).major) == major


@pytest.mark.parametrize(
    ("size", "threads", "most"), [(0.25, 20, 0.2067), (0.5, 13, 0.4284), (1.0, 8, 0.8797)]
)
def test_minor_diameter_of_3b(size: float, threads: int, most: float) -> None:
    """Greatest minor diameters of class 3B (from memory, not seen) would be off."""
    found = internal_limits(size * INCH, INCH / threads, "3B")
    assert inches(found.minor)[1] == most


def test_shorter_engagement_narrows_the_pitch_tolerance() -> None:
    """The length of engagement would not count."""
    usual = external_limits(0.875 * INCH, INCH / 14, rounded=False).pitch
    short = external_limits(0.875 * INCH, INCH / 14, engagement=9 * INCH / 14, rounded=False)
    assert short.pitch.high - short.pitch.low < usual.high - usual.low


@pytest.mark.parametrize("threads", [20, 14, 8])
@pytest.mark.parametrize(("outside", "inside"), [("1A", "1B"), ("2A", "2B"), ("3A", "3B")])
def test_any_pair_goes_together(outside: str, inside: str, threads: int) -> None:
    """A screw and a nut of one class, both to the limits, would interfere."""
    outer = external_limits(0.875 * INCH, INCH / threads, outside)
    inner = internal_limits(0.875 * INCH, INCH / threads, inside)
    assert inner.pitch.low >= outer.pitch.high - 5e-5 * INCH  # one is rounded first, one last
    assert inner.major >= outer.major.high


def test_classes_of_the_other_side_are_refused() -> None:
    """An internal class would give limits of an external thread."""
    with pytest.raises(ValueError, match="class") as caught:
        external_limits(0.25 * INCH, INCH / 20, "2B")
    assert str(caught.value) == "'2B' is not a class of this side: write 1A, 2A, 3A"


@pytest.mark.parametrize(("size", "pitch"), [(0.19, 1 / 24), (2.0, 0.3)])
def test_sizes_outside_the_formulas_are_refused(size: float, pitch: float) -> None:
    """The formulas would be used where they do not hold."""
    with pytest.raises(ValueError, match="outside the formulas") as caught:
        internal_limits(size * INCH, pitch * INCH)
    assert str(caught.value) == (
        f"a thread of {size:.4f} in with a pitch of {pitch:.4f} in is outside the formulas: "
        "they hold from 0.25 in and for pitches up to 0.25 in"
    )
