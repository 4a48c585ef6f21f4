from __future__ import annotations

import pytest
from tests.support.halves import carrier, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Half, Joined


def holder(cap: str = "E26", limit: float | None = 60.0, label: str = "") -> Half:
    """Make a lampholder."""
    numbers = {} if limit is None else {"limit": limit}
    return carrier("lampholder", words={"cap": cap}, numbers=numbers, label=label)


def bulb(cap: str = "E26", watts: float | None = 60.0, label: str = "") -> Half:
    """Make a bulb."""
    numbers = {} if watts is None else {"limit": watts}
    return stander("lampholder", words={"cap": cap}, numbers=numbers, label=label)


@pytest.mark.parametrize(
    ("watts", "fit"), [(40.0, Fit.FITS), (60.0, Fit.FITS), (60.1, Fit.NOT), (100.0, Fit.NOT)]
)
def test_watts_at_most_the_limit(watts: float, fit: Fit) -> None:
    """A bulb that overheats its holder would pass."""
    assert judge(holder(), bulb(watts=watts)).fit is fit


def test_too_many_watts_are_told() -> None:
    """The adviser could not say by how much."""
    joined = judge(holder(), bulb(watts=100.0))
    assert joined == Joined(Fit.NOT, "limit", words={"carrier": "60 W", "stander": "100 W"})


def test_caps_must_be_the_same() -> None:
    """A bulb of another cap would be sent."""
    joined = judge(holder(), bulb("E27"))
    assert joined == Joined(Fit.NOT, "caps", words={"carrier": "E26", "stander": "E27"})


def test_a_label_stands_in_for_a_cap() -> None:
    """A holder known by its label only would take no bulb."""
    joined = judge(holder("", label="medium"), bulb(label="Medium"))
    assert (joined.fit, joined.by_label, joined.missing) == (Fit.FITS, True, ("carrier cap",))


def test_no_label_stands_in_for_watts() -> None:
    """A bulb of unknown watts would pass because a size label is the same."""
    joined = judge(holder(label="m"), bulb(watts=None, label="m"))
    assert joined == Joined(Fit.UNKNOWN, "missing", missing=("stander limit",))
