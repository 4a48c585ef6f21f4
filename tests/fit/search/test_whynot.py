from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickwright.fit.search.whynot import conflict, ways_out

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

CLAIMS = "abcdef"


def _oracle(*conflicts: str) -> Callable[[Sequence[str]], bool]:
    """Return an oracle under which the given sets cannot hold together."""
    return lambda claims: not any(set(one) <= set(claims) for one in conflicts)


@pytest.mark.parametrize("one", ["a", "f", "bd", "abcdef", "ef"])
def test_the_only_conflict_is_found(one: str) -> None:
    """A caller would be told of a claim that has nothing to do with it."""
    assert conflict(CLAIMS, _oracle(one)) == tuple(one)


def test_where_all_holds_there_is_no_conflict() -> None:
    """A reason would be found against what is possible."""
    assert conflict(CLAIMS, _oracle()) == ()


def test_where_nothing_holds_no_claim_is_to_blame() -> None:
    """Claims would be blamed for what is impossible without them."""
    assert conflict(CLAIMS, lambda _: False) == ()


def test_of_two_conflicts_the_one_of_earlier_claims_is_named() -> None:
    """A caller would hear of the laws of the parts last, though they suffice as a reason."""
    assert conflict(CLAIMS, _oracle("ef", "ab")) == ("a", "b")
    assert conflict(CLAIMS, _oracle("af", "ae")) == ("a", "e")


def test_few_questions_are_asked() -> None:
    """A reason would take one search for every set of claims."""
    asked: list[Sequence[str]] = []
    many = [f"c{number}" for number in range(64)]

    def holds(claims: Sequence[str]) -> bool:
        asked.append(claims)
        return not {"c5", "c40"} <= set(claims)

    assert conflict(many, holds) == ("c5", "c40")
    assert len(asked) <= 4 + 2 * 2 * 6  # two members in 64, by halving


def test_a_reason_is_looked_for_where_it_is_likely() -> None:
    """A caller would wait for the laws of all parts to be tried, one half after the other."""
    asked: list[Sequence[str]] = []

    def holds(claims: Sequence[str]) -> bool:
        asked.append(claims)
        return not {"b", "d"} <= set(claims)

    assert conflict(CLAIMS, holds, ["ab", "bd"]) == ("b", "d")
    assert max(map(len, asked)) == 2


def test_a_conflict_known_is_not_asked_for_again() -> None:
    """Ways out would take one search for every set of claims that plainly will not do."""
    asked: list[frozenset[str]] = []

    def holds(claims: Sequence[str]) -> bool:
        asked.append(frozenset(claims))
        return not any(set(one) <= set(claims) for one in ("ab", "cd"))

    pairs = {("a", "c"), ("a", "d"), ("b", "c"), ("b", "d")}
    assert set(ways_out(CLAIMS, holds, ("a", "b"))) == pairs
    assert not any({"a", "b"} <= one for one in asked)
    assert sum({"a", "c", "d"} <= one for one in asked) == 1


def test_one_claim_of_each_conflict_must_go() -> None:
    """A way out would leave a conflict standing, or give up more than it must."""
    holds = _oracle("ab", "bc")
    assert ways_out(CLAIMS, holds, ("a", "b")) == (("b",), ("a", "c"))


def test_ways_out_stop_where_told() -> None:
    """A caller would be given a list too long to read, or sets larger than asked for."""
    holds = _oracle("abc")
    assert ways_out(CLAIMS, holds, ("a", "b", "c"), enough=2) == (("a",), ("b",))
    apart = _oracle("ab", "cd", "ef")
    assert ways_out(CLAIMS, apart, ("a", "b"), most=2) == ()
    assert len(ways_out(CLAIMS, apart, ("a", "b"), most=3, enough=99)) == 8


def test_what_is_given_up_is_named_in_the_order_of_the_claims() -> None:
    """The same way out would be worded in two ways."""
    holds = _oracle("fa", "cf", "ad")
    found = ways_out(CLAIMS, holds, ("f", "a"))
    assert sorted(found) == [("a", "c"), ("a", "f"), ("d", "f")]


def test_nothing_to_give_up_where_nothing_helps() -> None:
    """A way out would be offered that is none."""
    assert ways_out(CLAIMS, lambda _: False, ()) == ()
