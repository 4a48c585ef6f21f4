"""Verdicts as they are read out over the telephone: no word of a table, whole plain sentences."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import product

import pytest
from tests.support.demo import demo
from tests.support.halves import carrier, stander

from wickwright.catalogue.check_ports import FORM_WORDS
from wickwright.catalogue.records import Part
from wickwright.fit.joints import JOINTS, judge
from wickwright.fit.joints.verdict import Fit, Half, Joined
from wickwright.fit.rules import DETAILS, joint_finding
from wickwright.fit.spoken import FORMS, JOINTS_MADE_FOR

FONT, BURNER = Part("FO-1", "font", "font"), Part("BU-1", "burner", "burner")
CODES = re.compile(r"\bun\b|plain-foot|open-arms|tpi|°|[{}_]")
"""What stands in a table and is no word of any caller's."""
SENTENCE = re.compile(r"([A-Z][^.]*(\.\d[^.]*)*\. ?)+")


def detail(joined: Joined, joint: str = "thread", below: Part = FONT, above: Part = BURNER) -> str:
    """Return the reason of a verdict as it is read out."""
    return str(joint_finding(joined, joint, below, above).facts["detail"])


def is_plain(text: str) -> bool:
    """Tell whether a text is one or more whole sentences without a word of a table."""
    return bool(SENTENCE.fullmatch(text)) and not CODES.search(text)


def test_every_joint_and_every_form_has_words_to_be_read_out() -> None:
    """If this failed, a caller would be told of 'un' and 'open-arms'."""
    assert set(JOINTS_MADE_FOR) == set(JOINTS)
    assert {(joint, form) for joint, forms in FORM_WORDS.items() for form in forms} <= set(FORMS)


@pytest.mark.parametrize("why", sorted(DETAILS))
def test_every_reason_is_a_plain_sentence_for_every_joint(why: str) -> None:
    """If this failed, an adviser would stumble over some verdict while the caller listens."""
    key = why.removeprefix("too-")
    fits = (Fit.NOT,) if key != why or key not in ("tight", "loose") else (Fit.EFFORT, Fit.LOOSE)
    for joint, fit in product(JOINTS, fits):
        for one, other in words_of(key, joint):
            joined = Joined(fit, key, words={"carrier": one, "stander": other})
            assert is_plain(detail(joined, joint)), detail(joined, joint)


def words_of(why: str, joint: str) -> list[tuple[str, str]]:
    """Return pairs of words that a joint compares for a reason."""
    among: dict[str, list[str]] = {
        "joint": [*JOINTS],
        "form": [form for at, form in FORMS if at == joint],
        "hand": ["right", "left"],
        "pitch": ["10 tpi", "1.5 mm", "2.54 mm"],
        "angle": ["45°", "60°"],
        "lugs": ["3", "4"],
        "arms": ["3", "4"],
    }
    words = among.get(why, ["E27", "B22d"])
    return [(one, other) for one in words for other in words]


def test_every_verdict_on_two_ports_of_the_book_is_a_plain_sentence() -> None:
    """If this failed, some pair of parts of the book would be told of in words of its tables."""
    said = {text for text in map(_told, _pairs()) if text}
    assert len(said) > 20
    assert [text for text in said if not is_plain(text)] == []


def _pairs() -> list[tuple[Part, Half, Part, Half]]:
    """Return each different port that carries beside each that stands, with a part of each."""
    parts = demo().book.parts.values()
    carry = {(one.joint, *one.words.items(), *one.sizes.items()): (part, one)
             for part in parts for one in part.ports if one.takes}  # fmt: skip
    stand = {(one.joint, *one.words.items(), *one.sizes.items()): (part, one)
             for part in parts for one in part.stands}  # fmt: skip
    return [
        (below, Half(on, below.material), above, Half(by, above.material))
        for (below, on), (above, by) in product(carry.values(), stand.values())
    ]


def _told(pair: tuple[Part, Half, Part, Half]) -> str:
    below, on, above, by = pair
    return detail(judge(on, by), on.port.joint, below, above)


@pytest.mark.parametrize(
    ("joint", "column", "pair", "says"),
    [
        (
            "thread",
            "form",
            ("un", "round"),
            "The font is made for a UN thread, and the burner for a rounded thread.",
        ),
        (
            "thread",
            "hand",
            ("right", "left"),
            "The font has a right-hand thread, and the burner a left-hand thread.",
        ),
        (
            "wick",
            "form",
            ("flat", "round"),
            "The font is made for a flat wick, and the burner for a round tube.",
        ),
    ],
)
def test_words_that_differ_are_told_by_their_parts(
    joint: str, column: str, pair: tuple[str, str], says: str
) -> None:
    """If this failed, a caller would not know which part has which thread."""
    one, other = ({column: word} for word in pair)
    joined = judge(carrier(joint, words=one), stander(joint, words=other))
    assert joined.fit is Fit.NOT
    assert detail(joined, joint) == says


def test_pitches_are_told_as_people_count_them() -> None:
    """If this failed, a caller would hear of 'ten tee pee eye'."""
    assert detail(Joined(Fit.NOT, "pitch", words={"carrier": "10 tpi", "stander": "1.5 mm"})) == (
        "One thread is coarser than the other: the font has 10 threads to the inch, the burner "
        "1.5 mm from one crest to the next."
    )


def test_two_parts_of_one_kind_are_told_apart() -> None:
    """If this failed, 'the reducer' would stand for both."""
    one = Part("RD-1", "reducer", "reducer")
    joined = Joined(Fit.NOT, "lugs", words={"carrier": "3", "stander": "4"})
    assert detail(joined, "quarter-turn", one, replace(one, id="RD-2")) == (
        "The lower reducer has 3 lugs, and the upper reducer is made for 4."
    )


def test_what_is_too_tight_is_not_called_a_little_tight() -> None:
    """If this failed, a caller would try to force a part that does not go on."""
    assert detail(Joined(Fit.NOT, "tight"), "rest") == "It is too tight to go on."
    assert detail(Joined(Fit.EFFORT, "tight"), "rest") == "It is on the tight side."
    assert detail(Joined(Fit.NOT, "loose"), "rest") == "It is too loose to hold."


def test_no_rule_speaks_of_an_option_of_the_command_line() -> None:
    """If this failed, an adviser at the desk's page would be told of '--have'."""
    from wickwright.answers.rule_book import rule_book  # noqa: PLC0415 - all rooms at once

    told = [text for rule in rule_book() for text in (rule.says, rule.why, rule.cure)]
    assert [text for text in told if "--" in text] == []
