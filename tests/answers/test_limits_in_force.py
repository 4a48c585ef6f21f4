from __future__ import annotations

from tests.support.demo import demo

from wickwright.answers.limits_in_force import limits_in_force
from wickwright.answers.rule_book import rule_book
from wickwright.fit.settings import Settings
from wickwright.terms.source import SOURCES

WITHOUT = {
    "burn-carbon",  # the wick's own measure, in the table flames
    "flame-mark-carbon",  # as burn-carbon
    "burn-range",  # each formula its own
    "above-small-fire",  # as burn-range
}


def test_every_rule_that_permits_something_tells_its_numbers() -> None:
    """If this failed, a rule could not be held against its source."""
    told = {rule.key for rule in rule_book() if limits_in_force(rule.key, Settings(), demo().book)}
    permitting = {rule.key for rule in rule_book() if "{permitted}" in rule.says}
    assert permitting - told == WITHOUT


def test_every_number_names_a_source_of_the_bibliography() -> None:
    """If this failed, a number would be in force that came from nowhere."""
    for rule in rule_book():
        for one in limits_in_force(rule.key, Settings(), demo().book):
            assert one.source in SOURCES, (rule.key, one)


def test_without_a_book_its_own_numbers_are_left_out() -> None:
    """If this failed, a faulty book would keep the rules from being read."""
    assert limits_in_force("heat", Settings()) == ()
    assert [one.source for one in limits_in_force("draft", Settings())] == ["usstd1976"]
