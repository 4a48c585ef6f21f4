"""The reasons of a route in words; the last step before an edge prints them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.words.reasons import Reason, Why
from wickwright.answers.words.wording import light_words, sentence
from wickwright.catalogue.records import Status
from wickwright.fit.wishes import is_open

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wickwright.catalogue.records import Part
    from wickwright.terms.units import Units

__all__ = ["reason_words", "reasons_words"]


def reasons_words(found: Sequence[Reason], units: Units) -> str:
    """Put all reasons for one part into words.

    Parameters
    ----------
    found : sequence of Reason
        Of one part.
    units : Units
        What to print in.

    Returns
    -------
    str
        Clauses with a semicolon between, without a full stop.
    """
    return "; ".join(dict.fromkeys(reason_words(one, units) for one in found))


def reason_words(reason: Reason, units: Units) -> str:
    """Put one reason into words.

    Parameters
    ----------
    reason : Reason
        From :func:`wickwright.answers.words.reasons.reasons`.
    units : Units
        What to print in.

    Returns
    -------
    str
        A clause without a full stop.
    """
    return _SAYS[reason.why](reason, units)


def _called(part: Part | None) -> str:
    """Name a part in short: its full name stands elsewhere on the page."""
    return f"{part.kind} {part.id}" if part else "lamp"


def _standing(part: Part | None) -> str:
    """Say whether a part can be had, behind 'which is'."""
    status = part.status if part else Status.GONE
    return "sold while stocks last" if status is Status.STOCKS else str(status)


def _instead(reason: Reason, units: Units) -> str:
    """What would be wrong with the part in hand."""
    finding, old = reason.finding, reason.other
    if finding is None or old is None:
        return "the one you have does not do"
    if not finding.rule.startswith("joint-"):
        return f"with your {_called(old)}: {_clause(sentence(finding, units).says)}"
    detail = _clause(str(finding.facts["detail"]))
    carrier, stander = finding.parts
    if old.id == carrier:
        return f"your {_called(old)} does not take {stander}: {detail}"
    if old.id == stander:
        return f"your {_called(old)} does not go on {carrier}: {detail}"
    return f"with your {_called(old)}, {stander} does not go on {carrier}: {detail}"


def _clause(says: str) -> str:
    """Turn a sentence into a clause: no full stop, a small letter unless a name begins it."""
    plain = says.split(" ", 1)[0] in _BEGINNINGS
    return (says[:1].lower() + says[1:] if plain else says).rstrip(".")


_BEGINNINGS: Final = frozenset(
    {"A", "Any", "It", "Mass", "Nearly", "Nothing", "One", "The", "Whether"}
)
"""First words of a sentence that are no names."""


def _succession(reason: Reason, _units: Units) -> str:
    step = reason.step
    if step is None:
        return "follows a part that is no longer made"
    if reason.why is Why.FOLLOWS:
        return f"replaced {step.old.id}, which is {_standing(step.old)}"
    return f"{step.old.id} was replaced by {step.new.id}, which needs this {reason.part.kind}"


def _asked(reason: Reason, _units: Units) -> str:
    new = "a new " if reason.ask and reason.ask.ask == "renew" else "a "
    if reason.without:
        without = " and ".join(f"'{one}'" for one in reason.without)
        return f"{new}{reason.part.kind}, as near as can be to what you asked: without {without}"
    return f"{new}{reason.part.kind}, as you asked"


def _only(reason: Reason, _units: Units) -> str:
    says = f"so that {reason.ask.says if reason.ask else 'the wish is met'}"
    if reason.ask and reason.other and is_open(reason.other, reason.ask):
        column = reason.ask.field.replace("_", " ")
        return f"{says}: the {column} of your {_called(reason.other)} is not known"
    return says


def _fresh(reason: Reason, _units: Units) -> str:
    return f"in place of your {_called(reason.other)}, which is {_standing(reason.other)}"


_SAYS: dict[Why, Callable[[Reason, Units], str]] = {
    Why.ASKED: _asked,
    Why.LOST: lambda reason, _: f"makes good the lost {reason.part.kind}",
    Why.ONLY: _only,
    Why.INSTEAD: _instead,
    Why.CONVERTS: _succession,
    Why.FOLLOWS: _succession,
    Why.REQUIRED: lambda reason, _: f"the {_called(reason.other)} needs a {reason.part.kind}",
    Why.CARRIES: lambda reason, _: f"carries the {_called(reason.other)}",
    Why.FRESH: _fresh,
    Why.LIGHT: lambda reason, _: light_words(reason.points),
    Why.NEEDED: lambda reason, _: f"the lamp is not complete without a {reason.part.kind}",
}
