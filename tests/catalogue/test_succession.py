from __future__ import annotations

from dataclasses import replace

from tests.support.small_book import foot, make_book, part

from wickwright.catalogue.records import Book, Part, Status
from wickwright.catalogue.succession import Step, heir, successions


def _gone(key: str, successor: str = "", via: str = "") -> Part:
    return replace(part(key, "chimney"), successor=successor, via=via)


def _book(*parts: Part) -> Book:
    return make_book(parts)


def test_successions_are_followed_to_their_end() -> None:
    """A caller would be offered a successor that is itself long replaced."""
    a, b, c = _gone("A", "B"), _gone("B", "C", "V"), part("C", "chimney", price=100)
    via = part("V", "gallery", price=100)
    assert successions(_book(a, b, c, via), a) == (Step(a, b, None), Step(b, c, via))


def test_nothing_follows_a_part_without_successor() -> None:
    """A part that nothing replaced would be given a successor."""
    a = _gone("A")
    assert successions(_book(a), a) == ()
    assert heir(_book(a), a) is None


def test_the_heir_is_the_first_that_is_made() -> None:
    """A caller would be sent to a later successor, or to one on its way out."""
    a, b = _gone("A", "B"), replace(part("B", "chimney", price=100, stock=9), successor="C")
    c, d = replace(part("C", "chimney", price=100), successor="D"), part("D", "chimney", price=100)
    assert heir(_book(a, b, c, d), a) is c


def test_the_last_stock_is_heir_where_nothing_is_made() -> None:
    """Stock that is still on the shelf would be forgotten because nothing newer is made."""
    a, b = _gone("A", "B"), replace(part("B", "chimney", price=100, stock=2), successor="C")
    c = _gone("C")
    assert heir(_book(a, b, c), a) is b


def test_an_empty_shelf_is_no_heir() -> None:
    """A caller would be promised a part of which none is left."""
    a, b = _gone("A", "B"), part("B", "chimney", price=100, stock=0)
    assert b.status is Status.STOCKS
    assert heir(_book(a, b), a) is None


def test_a_part_is_not_its_own_heir() -> None:
    """A part that is still made would be named as the one that replaced it."""
    a = part("A", "chimney", price=100)
    assert heir(_book(a), a) is None


def test_a_changed_joint_is_seen() -> None:
    """A caller would not be told that the new chimney sits in another gallery."""
    old = replace(_gone("A", "B"), ports=(foot(60, "quarter-turn"),))
    new = replace(part("B", "chimney", price=100), ports=(foot(62, "plain-foot"),))
    both = replace(new, ports=(foot(62, "plain-foot"), foot(60, "quarter-turn")))
    assert Step(old, new, None).changes_joint
    assert not Step(old, both, None).changes_joint
    assert not Step(old, old, None).changes_joint


def test_a_part_that_stands_on_nothing_changes_no_joint() -> None:
    """A new base would be told to change a joint that no base has."""
    old, new = part("A", "base"), replace(part("B", "base"), ports=(foot(62),))
    assert not Step(old, new, None).changes_joint
