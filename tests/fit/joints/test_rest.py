from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Joined


@pytest.mark.parametrize(
    ("gap", "fit"),
    [
        (-0.001, Fit.NOT),
        (0.0, Fit.FITS),
        (2.0, Fit.FITS),
        (2.001, Fit.LOOSE),
        (4.0, Fit.LOOSE),
        (4.001, Fit.NOT),
    ],
)
def test_borders(gap: float, fit: Fit) -> None:
    """A font would rock in its base or not go down."""
    recess = carrier("rest", {"diameter": exact(90)})
    assert judge(recess, stander("rest", {"diameter": exact(90 - gap)})).fit is fit


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ("A1", "a1 ", Joined(Fit.FITS, "label", by_label=True)),
        ("A1", "A2", Joined(Fit.NOT, "labels", by_label=True)),
    ],
)
def test_labels_where_no_size_is_known(one: str, other: str, expected: Joined) -> None:
    """A part known only by the maker's label would not be judged, or not be said to be."""
    joined = judge(carrier("rest", label=one), stander("rest", label=other))
    assert joined == expected._replace(
        missing=("carrier diameter", "stander diameter"),
        words={"carrier": one, "stander": other.strip()},
    )


@pytest.mark.parametrize(("one", "other"), [("", "A1"), ("A1", ""), ("", ""), (" ", " ")])
def test_a_blank_label_settles_nothing(one: str, other: str) -> None:
    """Two parts without size and label would pass for the same."""
    joined = judge(carrier("rest", label=one), stander("rest", label=other))
    missing = ("carrier diameter", "stander diameter")
    assert joined == Joined(Fit.UNKNOWN, "missing", missing=missing)


def test_labels_do_not_count_where_sizes_are_known() -> None:
    """A wrong label would outweigh a measurement."""
    recess = carrier("rest", {"diameter": exact(90)}, label="A")
    foot = stander("rest", {"diameter": exact(89)}, label="B")
    assert judge(recess, foot).fit is Fit.FITS
    assert not judge(recess, foot).by_label


def test_only_the_missing_side_is_named() -> None:
    """The caller would be asked to measure what the book knows."""
    joined = judge(carrier("rest", {"diameter": exact(90)}), stander("rest"))
    assert joined.missing == ("stander diameter",)
