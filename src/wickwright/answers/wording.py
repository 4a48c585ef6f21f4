"""Findings, claims and verdicts in words; the last step before an edge prints them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.answers.rule_book import rule_of
from wickwright.fit.audit import called
from wickwright.fit.rules import SIZES, UNMEASURED
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.request import Claim, Situation
    from wickwright.fit.routes import Impossible
    from wickwright.terms.finding import Fact, Finding
    from wickwright.terms.units import Units

__all__ = [
    "LAWS",
    "Sentence",
    "claim_words",
    "give_up_words",
    "light_words",
    "sentence",
    "why_not_words",
]


@dataclass(frozen=True, slots=True)
class Sentence:
    """A finding in words.

    Attributes
    ----------
    says : str
        What was found.
    why : str
        Why it matters.
    cure : str
        What mends it.
    """

    says: str
    why: str
    cure: str


def sentence(finding: Finding, units: Units) -> Sentence:
    """Put a finding into words.

    Parameters
    ----------
    finding : Finding
        Any finding.
    units : Units
        What to print in.

    Returns
    -------
    Sentence
        What was found, why it matters, what mends it.
    """
    rule = rule_of(finding.rule)
    words = {name: say(fact, units) for name, fact in _facts(finding).items()}
    says = rule.says.removesuffix(SIZES) if words.get("gap") == UNMEASURED else rule.says
    return Sentence(_filled(says, words), rule.why, _filled(rule.cure, words))


def light_words(points: int) -> str:
    """Put light points into words.

    Parameters
    ----------
    points : int
        Gained or lost; hundredths of a natural-log unit [-].

    Returns
    -------
    str
        Such as ``'about 13 % more light'``.
    """
    share = math.expm1(points / 100)
    return f"about {abs(share) * 100:.0f} % {'more' if points > 0 else 'less'} light"


def _facts(finding: Finding) -> dict[str, Fact]:
    facts = dict(finding.facts)
    if finding.measured is not None:
        facts.setdefault("measured", finding.measured)
    if finding.permitted is not None:
        facts.setdefault("permitted", finding.permitted)
    return facts


def _filled(text: str, words: dict[str, str]) -> str:
    filled = text.format_map(words)
    return filled[:1].upper() + filled[1:]


# -- claims ----------------------------------------------------------------------------------

LAWS = frozenset({"heat", "draft", "tip", "joint"})
"""Sorts of claim nobody may give up: they are laws of the parts, not wishes."""


def claim_words(claim: Claim, now: Situation, blocked: Sequence[Part] = ()) -> str:
    """Put a claim into words, as a fact that cannot hold together with others.

    Parameters
    ----------
    claim : Claim
        One of the smallest set that cannot all hold.
    now : Situation
        The request, looked at.
    blocked : sequence of Part
        Parts that would do and cannot be had.

    Returns
    -------
    str
        A clause without a full stop.
    """
    fixed = _CLAUSES.get(claim.sort)
    if fixed:
        return fixed.format(kind=claim.subject)
    if claim.sort == "available":
        return _scarce(claim.subject, blocked)
    if claim.sort == "joint":
        return _joint_words(claim, now)
    if claim.sort == "service":
        return _SERVICES[claim.subject]
    return now.request.wish.asks[claim.index].says or f"you ask for a {claim.subject}"


_CLAUSES = {
    "keep": "the lamp keeps a {kind}",
    "replace": "the lost {kind} is made good",
    "budget": "it stays within the budget",
    "heat": "glass and shades must be rated for the burner's heat",
    "draft": "the chimney must draw at this elevation",
    "tip": "the lamp must not tip",
}
_SERVICES = {"oil": "the lamp goes on burning oil", "electric": "the lamp stays electric"}


def _scarce(kind: str, blocked: Sequence[Part]) -> str:
    named = [part for part in blocked if part.kind == kind]
    if not named:
        return f"only a {kind} that can be had is sent"
    verb = "is" if len(named) == 1 else "are"
    reasons = {part.status.value for part in named}
    gone = "no longer made" if reasons == {"no longer made"} else "not to be had in that number"
    return f"{', '.join(called(part) for part in named)} {verb} {gone}"


def _joint_words(claim: Claim, now: Situation) -> str:
    below, above = claim.subject.split(": ")
    owner = now.owned_of(below)
    if owner is not None:
        return f"your {below}, {called(owner)}, takes only a {above} that fits it"
    return f"a {below} takes only a {above} that fits it"


def why_not_words(answer: Impossible) -> str:
    """Put the smallest set of facts that cannot all hold into one sentence.

    Parameters
    ----------
    answer : Impossible
        The answer.

    Returns
    -------
    str
        One sentence; or a note that nothing at all would make it possible.
    """
    if not answer.because:
        return "Nothing in the fit book makes this lamp complete, whatever is given up."
    clauses = [claim_words(claim, answer.now, answer.blocked) for claim in answer.because]
    if len(clauses) == 1:
        return f"It cannot be that {clauses[0]}."
    return f"These cannot all hold: {'; '.join(clauses)}."


def give_up_words(claims: Sequence[Claim], answer: Impossible) -> str:
    """Say what would be given up, or that it must not be.

    Parameters
    ----------
    claims : sequence of Claim
        One way out.
    answer : Impossible
        The answer it belongs to.

    Returns
    -------
    str
        A clause without a full stop; blank when it would be unsafe or untrue to offer it.
    """
    if any(claim.sort in LAWS for claim in claims):
        return ""
    return " and ".join(f"'{claim_words(claim, answer.now, ())}'" for claim in claims)
