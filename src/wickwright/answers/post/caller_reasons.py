"""Why a part is sent, in words for a caller who knows no term of the trade."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.words.reasons import Reason, Why

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

__all__ = ["caller_reason"]


def caller_reason(found: Sequence[Reason]) -> str:
    """Say why a part is sent.

    Parameters
    ----------
    found : sequence of Reason
        Of one part, the weightiest first; at least one.

    Returns
    -------
    str
        One clause, or two with a comma between, without a full stop.
    """
    first, *more = found
    then = [one for one in more if first.why is Why.INSTEAD and one.why in _MORE]
    return ", and ".join(_SAYS[one.why](one) for one in (first, *then[:1]))


_MORE: Final = (Why.CONVERTS, Why.FOLLOWS)
"""What is worth adding to 'it does not go with the other parts'."""


_BY_RULE: Final[Mapping[str, str]] = {
    "heat": "the one you have does not stand the heat",
    "heat-unknown": "nobody knows what heat the one you have stands",
    "draft": "the one you have is too short for the height you live at",
    "tips": "with the one you have the lamp would tip",
    "unweighed": "nobody knows whether the lamp tips with the one you have",
}


def _instead(reason: Reason) -> str:
    rule = reason.finding.rule if reason.finding else ""
    return _BY_RULE.get(rule, "the one you have does not go with the other parts")


def _only(reason: Reason) -> str:
    return f"so that {reason.ask.says}" if reason.ask else "so that you have what you asked for"


def _required(reason: Reason) -> str:
    return f"the {reason.other.kind} does not work without it" if reason.other else "it is needed"


def _carries(reason: Reason) -> str:
    return f"it carries the {reason.other.kind}" if reason.other else "it carries the rest"


_SAYS: Final[Mapping[Why, Callable[[Reason], str]]] = {
    Why.ASKED: lambda reason: (
        "as near as can be to what you asked" if reason.without else "as you asked"
    ),
    Why.LOST: lambda _: "in place of the one that is broken or gone",
    Why.ONLY: _only,
    Why.INSTEAD: _instead,
    Why.CONVERTS: lambda _: "it lets the lamp take the kind that is still made",
    Why.FOLLOWS: lambda _: "it is what took the place of a part no longer made",
    Why.REQUIRED: _required,
    Why.CARRIES: _carries,
    Why.FRESH: lambda _: "the one you have is no longer made",
    Why.LIGHT: lambda _: "it gives more light",
    Why.NEEDED: lambda _: "the lamp is not complete without it",
}
