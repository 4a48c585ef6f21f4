from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Warmth

FINGERS = carrier("plain-foot", {"capture": "65.5..67.5 mm"})


@pytest.mark.parametrize(
    ("foot", "fit"),
    [
        (64.999, Fit.NOT),
        (65.0, Fit.LOOSE),
        (65.499, Fit.LOOSE),
        (65.5, Fit.FITS),
        (67.5, Fit.FITS),
        (67.501, Fit.EFFORT),
        (68.0, Fit.EFFORT),
        (68.001, Fit.NOT),
    ],
)
def test_borders(foot: float, fit: Fit) -> None:
    """The range of the spring fingers would have moved."""
    joined = judge(FINGERS, stander("plain-foot", {"diameter": exact(foot)}, material="glass"))
    assert joined.fit is fit


@pytest.mark.parametrize(
    ("foot", "fit"),
    [
        ("67.3 ± 0.3 mm", Fit.EFFORT),
        ("65.7 ± 0.3 mm", Fit.LOOSE),
        ("66.5 ± 1.2 mm", Fit.LOOSE),  # may be loose and may need effort: loose speaks
        ("67.9 ± 0.3 mm", Fit.UNKNOWN),
        ("65.1 ± 0.3 mm", Fit.UNKNOWN),
        ("66.5 ± 2 mm", Fit.UNKNOWN),
        ("68.5 ± 0.4 mm", Fit.NOT),
    ],
)
def test_a_foot_across_a_border(foot: str, fit: Fit) -> None:
    """A foot whose tolerance crosses a border would get another verdict than is written down."""
    assert judge(FINGERS, stander("plain-foot", {"diameter": foot})).fit is fit


def test_only_the_foot_is_to_be_measured() -> None:
    """The caller would be asked to measure fingers whose range is already stated."""
    joined = judge(FINGERS, stander("plain-foot", {"diameter": "67.9 ± 0.3 mm"}))
    assert joined.missing == ("stander diameter",)


def test_fingers_take_up_the_heat() -> None:
    """A plain foot would be said to bind hot, which the fingers are there to prevent."""
    foot = stander("plain-foot", {"diameter": exact(67.5)}, material="soda-glass")
    assert judge(FINGERS, foot, Warmth(293.15, 600.0)).fit is Fit.FITS


def test_blank_capture_goes_by_label() -> None:
    """A gallery without a measured range would never match its own chimney."""
    gallery = carrier("plain-foot", label="Size B ")
    foot = stander("plain-foot", {"diameter": "66.7 mm"}, label="size b")
    joined = judge(gallery, foot)
    assert (joined.fit, joined.by_label) == (Fit.FITS, True)
    assert joined.missing == ("carrier capture",)
