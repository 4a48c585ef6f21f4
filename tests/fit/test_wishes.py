from __future__ import annotations

from dataclasses import replace

import pytest
from tests.support.small_book import PARTS, compiled_small, foot, lamp, part, wish

from wickwright.catalogue.records import Ask, Part, Service
from wickwright.fit.request import Request, situation
from wickwright.fit.wishes import is_open, passes, resolved

SHADE = replace(
    part("S", "shade", foot(75), price=100),
    material="cloth",
    style="period",
    first=1931,
    last=1957,
    height=0.350,
    heat_rating=950.0,
    service=Service.OIL,
    light=8,
)
PLAIN = part("P", "shade")
"""A shade of which nearly every column is blank."""


def _only(field: str, test: str, value: str, kind: str = "shade") -> Ask:
    return Ask("only", kind, field, test, value)


@pytest.mark.parametrize(
    ("field", "test", "value", "held"),
    [
        ("part", "is", "S", True),
        ("part", "in", "A, s ,B", True),
        ("part", "in", "A, B", False),
        ("material", "is", " Cloth ", True),
        ("material", "is", "glass", False),
        ("material", "in", "glass, cloth", True),
        ("style", "is", "period", True),
        ("style", "is", "modern", False),
        ("status", "is", "made", True),
        ("status", "is", "no longer made", False),
        ("joint", "is", "rest", True),
        ("joint", "is", "fitter", False),
        ("service", "is", "oil", True),
        ("service", "is", "electric", False),
        ("from", "at most", "1931", True),
        ("from", "at most", "1930", False),
        ("to", "at least", "1957", True),
        ("to", "at least", "1958", False),
        ("height", "at least", "350 mm", True),
        ("height", "at least", "350.1 mm", False),
        ("height", "at most", "13 25/32 in", True),
        ("heat_rating", "at least", "950", True),
        ("heat_rating", "at least", "951", False),
        ("light", "at least", "8", True),
        ("light", "at most", "7", False),
    ],
)
def test_only_and_never_read_a_column(field: str, test: str, value: str, *, held: bool) -> None:
    """A wish that names a column would let in what it forbids, or forbid what it asks for."""
    ask = _only(field, test, value)
    assert passes(SHADE, ask) is held
    assert passes(SHADE, replace(ask, ask="never")) is not held


@pytest.mark.parametrize("field", ["style", "from", "to", "joint", "service"])
@pytest.mark.parametrize("word", ["only", "never"])
def test_a_blank_column_is_not_judged(field: str, word: str) -> None:
    """A part that suits any style, or whose years nobody knows, would be forbidden."""
    test, value = ("is", "oil") if field in ("style", "joint", "service") else ("at least", "1")
    ask = replace(_only(field, test, value), ask=word)
    assert passes(PLAIN, ask)
    assert not is_open(PLAIN, ask)


@pytest.mark.parametrize(
    ("field", "test", "value"),
    [
        ("height", "at least", "1 mm"),
        ("heat_rating", "at least", "1"),
        ("material", "is", "glass"),
    ],
)
@pytest.mark.parametrize("word", ["only", "never"])
def test_a_blank_measure_is_not_known(field: str, test: str, value: str, word: str) -> None:
    """Glass that nobody rated would be sold as rated, and glass of no known kind as any."""
    ask = replace(_only(field, test, value), ask=word)
    blank = replace(PLAIN, material="")
    assert is_open(blank, ask)
    assert not passes(blank, ask)
    assert passes(blank, ask, unsure=True)
    assert passes(blank, replace(ask, kind="")), "an ask of every part speaks of those measured"
    assert passes(blank, replace(ask, kind="chimney"))


def test_other_kinds_are_left_alone() -> None:
    """A wish about shades would forbid chimneys."""
    assert passes(SHADE, _only("material", "is", "glass", kind="chimney"))
    assert passes(SHADE, Ask("absent", "chimney"))


def test_an_ask_without_a_kind_is_of_every_part() -> None:
    """'Nothing modern on it' would be read as being about no part at all."""
    ask = _only("style", "is", "modern", kind="")
    assert not passes(SHADE, ask)
    assert passes(PLAIN, ask)


def test_absent_forbids_its_kind() -> None:
    """A lamp wished without a shade would come with one."""
    assert not passes(SHADE, Ask("absent", "shade"))


@pytest.mark.parametrize(
    ("it", "service", "answer"),
    [(SHADE, "oil", True), (SHADE, "electric", False), (PLAIN, "electric", True)],
)
def test_service_bars_the_other_service(it: Part, service: str, *, answer: bool) -> None:
    """A part for oil would stand on an electric lamp, or one for both would be barred."""
    assert passes(it, Ask("service", value=service)) is answer


def test_an_ask_without_a_value_asks_nothing() -> None:
    """A lamp still made has no last year, and a wish about it would then forbid every shade."""
    assert passes(SHADE, _only("from", "at most", ""))


def _resolved(value: str, kind: str, key: str = "table") -> str:
    compiled = compiled_small()
    now = situation(compiled, Request(key, wish()))
    return resolved(
        Ask("only", kind, "from", "at most", value), compiled.book.lamps[key], now
    ).value


def test_years_of_the_lamp_are_filled_in() -> None:
    """A wish of the lamp's years would be read with '@from' or '@to' as a number."""
    assert _resolved("@from", "shade") == "1931"
    assert _resolved("@to", "shade") == "1948"
    assert _resolved("1900", "shade") == "1900"


def test_a_lamp_still_made_has_no_last_year() -> None:
    """A lamp that is still made would limit its shades to a year that is none."""
    compiled = compiled_small()
    now = situation(compiled, Request("table", wish()))
    made = replace(lamp("table", "B"), first=None, last=None)
    ask = Ask("only", "shade", "from", "at most", "@to")
    assert resolved(ask, made, now).value == ""
    assert resolved(replace(ask, value="@from"), made, now).value == ""


def test_the_joint_of_the_part_it_has_is_filled_in() -> None:
    """'The same seat' would be another seat than the caller's chimney has."""
    assert _resolved("@joint", "chimney") == "quarter-turn"
    assert _resolved("@joint", "shade", "shaded") == "fitter"


def test_the_joint_of_a_part_that_is_not_there_asks_nothing() -> None:
    """A lamp without a shade would forbid every shade when asked for the same joint."""
    assert _resolved("@joint", "shade") == ""
    assert all(passes(one, _only("joint", "is", "")) for one in PARTS)
