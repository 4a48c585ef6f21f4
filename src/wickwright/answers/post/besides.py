"""What a letter and a fit sheet say beside the answer: for which lamps, on what doubt."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.answers.flames.route_flames import all_findings
from wickwright.answers.post.letter_parts import lamps_listed
from wickwright.answers.post.one_of_these import Fitted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.post.one_of_these import Meant
    from wickwright.catalogue.call_records import Remedy
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding

__all__ = ["NOTHING", "Besides", "doubts", "findings_of", "not_these", "ways_of"]


@dataclass(frozen=True, slots=True)
class Besides:
    """What is to be said beside the answer.

    Attributes
    ----------
    meant : Meant or None
        For which lamps the parts are; None where it is the lamp of the request.
    height : str
        That sea level was taken; blank where the height is known.
    overruled : str
        Why it is sent though the lamp is not settled; blank where it is.
    remedy : Remedy or None
        What is to be done with the parts, where they cure something.
    """

    meant: Meant | None = None
    height: str = ""
    overruled: str = ""
    remedy: Remedy | None = None

    @property
    def named(self) -> bool:
        """Whether the caller's lamp can be named."""
        return self.meant is None or self.meant.named


NOTHING = Besides()
"""Nothing beside the answer."""


def ways_of(
    besides: Besides, now: Situation, route: Route, flame: RouteFlame
) -> tuple[Fitted, ...]:
    """Return each lamp the parts may be for; that of the request where nothing else is said."""
    return besides.meant.ways if besides.meant else (Fitted(now, route, flame),)


def findings_of(ways: Sequence[Fitted]) -> tuple[Finding, ...]:
    """Return all that is to be said of each lamp the parts may be for, each finding once."""
    found = [one for way in ways for one in all_findings(way.route, way.flame)]
    return tuple({(one.rule, one.parts, one.severity): one for one in found}.values())


def doubts(besides: Besides) -> Iterator[str]:
    """Say what was taken for granted that may be wrong.

    Parameters
    ----------
    besides : Besides
        What is known of it.

    Yields
    ------
    str
        Sentences that are never left out of a letter.
    """
    if besides.height:
        yield besides.height
    if words := not_these(besides):
        yield words
    if besides.overruled:
        reason = " ".join(besides.overruled.split()).rstrip(".")
        yield (
            "We could not settle which lamp you have; we send this all the same, because: "
            f"{reason}."
        )


def not_these(besides: Besides) -> str:
    """Say for which lamps the parts are not meant; blank where there is no doubt."""
    meant = besides.meant
    if meant is None or (meant.named and not meant.others):
        return ""
    none = "" if meant.named else "none of these"
    other = f"one of these: {lamps_listed(meant.others)}" if meant.others else ""
    return f"If yours is {', or '.join(filter(None, (none, other)))}: do not fit it, call us."
