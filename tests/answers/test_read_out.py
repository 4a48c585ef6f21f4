"""What is found of a lamp is read out to a caller as it stands: whole sentences, no codes."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from tests.support.demo import demo
from tests.support.round_of_wishes import round_of_wishes

from wickwright.answers.flames.route_flames import all_findings, route_flames
from wickwright.answers.post.caller_words import briefly, caller_words
from wickwright.answers.words.wording import sentence
from wickwright.catalogue.lists import LISTS
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from wickwright.terms.finding import Finding

UNITS = (Units("metric", "SKD"), Units("us", "SKD"))
SENTENCES = re.compile(r"[A-Z0-9].*[.]", re.DOTALL)
LISTED = {one for words in LISTS.values() for one in words if "-" in one or "_" in one}
"""Words of the book's closed lists that nobody says so."""
SAID = {"plain-foot", "quarter-turn", "open-arms"}
"""Those that advisers say, and that stand in the names of parts."""
CODES = re.compile(rf"[{{}}_]|--|\bNone\b|\bun\b|\b({'|'.join(sorted(LISTED - SAID))})\b")


def found() -> list[Finding]:
    """Return what is found on the lamps of a round of wishes, each thing once."""
    once: dict[tuple[str, tuple[str, ...]], Finding] = {}
    for now, route in round_of_wishes()[::3]:
        (flame,) = route_flames(demo(), now, [route]).after
        for one in all_findings(route, flame):
            once.setdefault((one.rule, one.parts), one)
    return list(once.values())


def test_every_finding_is_whole_sentences_without_a_code() -> None:
    """If this failed, an adviser would read a table's word or half a sentence to a caller."""
    findings = found()
    assert len({one.rule for one in findings}) > 8
    for one in findings:
        for units in UNITS:
            words = sentence(one, units)
            for text in (words.says, words.why, words.cure):
                assert SENTENCES.fullmatch(text), text
            for text in (words.says, words.cure, caller_words(one, units), briefly(one, units)):
                assert not CODES.search(text), text
