from __future__ import annotations

from tests.support.small_book import compiled_small, wish

from wickwright.catalogue.records import Ask
from wickwright.fit.oracle import Oracle, suspects
from wickwright.fit.request import Claim, Request, claims_of, situation

DARK = Request("table", wish(Ask("present", "bulb")))
"""A bulb on a lamp that burns oil, which nobody takes back."""


def test_words_of_the_caller_are_looked_at_first_and_laws_last() -> None:
    """A caller would hear of joints and stocks where two words of the wish suffice."""
    compiled = compiled_small()
    claims = claims_of(compiled, situation(compiled, DARK))
    words, *others = suspects(compiled, claims)
    assert words == (Claim("service", "oil"), Claim("ask", "bulb"))
    assert all(set(words) <= set(some) <= set(claims) for some in others)
    assert not any(claim.sort == "tip" for some in others[:2] for claim in some)
    assert list(others[-1]) == [claim for claim in claims if claim in others[-1]]


def test_a_reason_in_the_words_alone() -> None:
    """The reason would name what the parts allow though the wish contradicts itself."""
    compiled = compiled_small()
    now = situation(compiled, DARK)
    claims = claims_of(compiled, now)
    assert Oracle(compiled, now).reason(claims) == (Claim("service", "oil"), Claim("ask", "bulb"))


def test_what_was_refuted_is_not_searched_again() -> None:
    """The search that found no route would be done a second time."""
    compiled = compiled_small()
    now = situation(compiled, Request("table", wish()))
    holds = Oracle(compiled, now, refuted=[Claim("tip")])
    assert not holds([Claim("heat"), Claim("tip")])
    assert holds([Claim("heat")])
    assert holds([])
