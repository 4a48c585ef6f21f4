"""Findings, claims and verdicts in words; the last step before an edge prints them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.answers.rule_book import rule_of
from wickwright.fit.audit import CARRIERS, called
from wickwright.fit.rules import SIZES, UNMEASURED
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.request import Claim, Situation
    from wickwright.fit.routes import Impossible, WayOut
    from wickwright.terms.finding import Fact, Finding
    from wickwright.terms.units import Units

__all__ = [
    "LAWS",
    "Sentence",
    "claim_words",
    "give_up_words",
    "kept_off",
    "leaves_it",
    "light_words",
    "nowhere_words",
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


def claim_words(
    claim: Claim, now: Situation, blocked: Sequence[Part] = (), wanted: str = ""
) -> str:
    """Put a claim into words, as a fact that cannot hold together with others.

    Parameters
    ----------
    claim : Claim
        One of the smallest set that cannot all hold.
    now : Situation
        The request, looked at.
    blocked : sequence of Part
        Parts that would do and cannot be had.
    wanted : str
        The kind that the joints alone keep off the lamp, see :func:`kept_off`.

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
        return _joint_words(claim, now, wanted)
    if claim.sort == "service":
        return _SERVICES[claim.subject]
    return now.request.wish.asks[claim.index].says or f"you ask for a {claim.subject}"


_CLAUSES = {
    "form": "it stays a {kind} lamp",
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


def _joint_words(claim: Claim, now: Situation, wanted: str) -> str:
    below, above = claim.subject.split(": ")
    owner, stander = now.owned_of(below), now.owned_of(above)
    if owner is not None and wanted not in ("", above):
        return f"no {above} that fits your {below}, {called(owner)}, can carry a {wanted}"
    if owner is not None:
        return f"your {below}, {called(owner)}, takes only a {above} that fits it"
    if stander is not None:
        return f"your {above}, {called(stander)}, goes only on a {below} that fits it"
    return f"a {below} takes only a {above} that fits it"


def kept_off(answer: Impossible) -> str:
    """Return the kind that is wanted and that one joint alone keeps off the lamp.

    Parameters
    ----------
    answer : Impossible
        The answer.

    Returns
    -------
    str
        Blank unless what cannot all hold is that the lamp has a part of a kind, and that the
        parts of one joint fit each other.
    """
    joints = [claim for claim in answer.because if claim.sort == "joint"]
    kinds = {claim.subject for claim in answer.because if claim.sort in _HAVING}
    if len(joints) == 1 and len(kinds) == 1 and all(_has(one, answer) for one in answer.because):
        return kinds.pop()
    return ""


_HAVING = ("ask", "replace", "keep")


def _has(claim: Claim, answer: Impossible) -> bool:
    """Tell whether a claim is a joint, or is that the lamp has a part of a kind."""
    if claim.sort != "ask":
        return claim.sort in ("joint", *_HAVING)
    return answer.now.request.wish.asks[claim.index].ask in ("renew", "present")


def nowhere_words(answer: Impossible) -> str:
    """Say that a part which is wanted has no place on the lamp.

    Parameters
    ----------
    answer : Impossible
        The answer.

    Returns
    -------
    str
        A clause without a full stop; blank where there is another reason.
    """
    if len(answer.because) != 1:
        return ""
    (claim,) = answer.because
    if claim.sort not in _HAVING or not _has(claim, answer) or claim.subject not in CARRIERS:
        return ""
    kind = claim.subject
    return f"there is no place for a {kind} on this lamp: it goes on {CARRIERS[kind]}"


def leaves_it(out: WayOut) -> bool:
    """Tell whether a way out gives up what was asked and leaves the lamp as it is.

    Parameters
    ----------
    out : WayOut
        What would be possible if something were given up.

    Returns
    -------
    bool
        True where nothing is bought and only asks are given up.
    """
    return not out.buy and all(claim.sort == "ask" for claim in out.give_up)


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
    wanted = kept_off(answer)
    clauses = [claim_words(one, answer.now, answer.blocked, wanted) for one in answer.because]
    if nowhere := nowhere_words(answer):
        return f"It cannot be that {clauses[0]}: {nowhere}."
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
