from __future__ import annotations

from dataclasses import replace

import pytest
from tests.support.small_book import part

from wickwright.catalogue.records import Ask, Part, Status
from wickwright.fit.flags import Flags, buyable

MADE = part("A", "chimney", price=100)
LAST = part("B", "chimney", price=100, stock=6)
GONE = part("C", "chimney")


@pytest.mark.parametrize(
    ("it", "count", "answer"),
    [
        (MADE, 1, True),
        (replace(MADE, stock=0), 100, True),
        (replace(MADE, price=None), 1, False),
        (LAST, 6, True),
        (LAST, 7, False),
        (replace(LAST, stock=0), 1, False),
        (replace(LAST, stock=None), 1, False),
        (GONE, 1, False),
        (replace(GONE, price=100, stock=9), 1, False),
        (replace(GONE, price=100, status=Status.STOCKS, stock=1), 1, True),
    ],
)
def test_what_can_be_had(it: Part, count: int, answer: bool) -> None:  # noqa: FBT001
    """A part would be promised that is gone, has no price or is too few on the shelf."""
    assert buyable(it, count) is answer


BOOK = (
    part("B", "base", price=100),
    part("F", "font", price=100),
    replace(part("G", "shade", price=100), material="glass"),
    replace(part("S", "shade", price=100), material="cloth", mass=None),
    replace(part("T", "tool", price=100), mass=None),
    part("L", "shade", price=100, stock=2),
)
NO_GLASS = Ask("never", "shade", "material", "is", "glass")
NO_SHADE = Ask("absent", "shade")


def test_asks_are_all_held() -> None:
    """A part that only one of two asks forbids would be used."""
    flags = Flags(BOOK)
    assert flags.usable(()) == bytes((1, 1, 1, 1, 1, 1))
    assert flags.usable((NO_GLASS,)) == bytes((1, 1, 0, 1, 1, 1))
    assert flags.usable((NO_GLASS, NO_SHADE)) == bytes((1, 1, 0, 0, 1, 0))
    assert flags.usable(()) == bytes((1, 1, 1, 1, 1, 1))


def test_only_what_is_usable_had_and_weighed_is_bought() -> None:
    """Something would be bought that is forbidden, sold out or of unknown weight."""
    flags = Flags(BOOK)
    everyone = flags.usable(())
    assert flags.able(everyone, (), (), 1, unweighed=False) == bytes((1, 1, 1, 0, 1, 1))
    assert flags.able(everyone, (), (), 3, unweighed=False) == bytes((1, 1, 1, 0, 1, 0))
    assert flags.able(everyone, (), (), 1, unweighed=True) == bytes((1, 1, 1, 1, 1, 1))
    barred = flags.usable((NO_GLASS,))
    assert flags.able(barred, (), (), 1, unweighed=False) == bytes((1, 1, 0, 0, 1, 1))


def test_the_body_of_the_lamp_is_not_bought_again() -> None:
    """A caller who asks for a shade would be sold another base and font."""
    flags = Flags(BOOK)
    found = flags.able(flags.usable(()), ("base", "font"), (), 1, unweighed=False)
    assert found == bytes((0, 0, 1, 0, 1, 1))


def test_kinds_whose_stock_does_not_matter() -> None:
    """The question what would do if it could be had would leave out what cannot."""
    gone = (part("X", "shade"), part("Y", "font"))
    flags = Flags(gone)
    assert flags.able(flags.usable(()), (), ("shade",), 1, unweighed=False) == bytes((1, 0))
    assert flags.able(flags.usable(()), ("shade",), ("shade",), 1, unweighed=False) == bytes((0, 0))
