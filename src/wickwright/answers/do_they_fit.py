"""Whether one part stands on another, and how well."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.answers.which_parts import UnknownNameError
from wickwright.fit.joiner import RANK
from wickwright.fit.rules import joint_finding

if TYPE_CHECKING:
    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.joints.verdict import Joined
    from wickwright.terms.finding import Finding

__all__ = ["Pair", "do_they_fit"]


@dataclass(frozen=True, slots=True)
class Pair:
    """How two parts join at their best.

    Attributes
    ----------
    below, above : Part
        The carrying and the standing part.
    on, by : Port
        Their halves of the joint.
    joined : Joined
        Verdict and clearances.
    finding : Finding
        The same as a finding.
    """

    below: Part
    above: Part
    on: Port
    by: Port
    joined: Joined
    finding: Finding


def do_they_fit(compiled: Compiled, one: str, other: str) -> Pair | None:
    """Judge two parts against each other, whichever stands on the other.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    one, other : str
        Part numbers.

    Returns
    -------
    Pair or None
        None when neither carries parts of the other's kind.

    Raises
    ------
    UnknownNameError
        When a part is not in the book.
    """
    parts = compiled.book.parts
    for name in (one, other):
        if name not in parts:
            msg = f"there is no part '{name}' in the fit book"
            raise UnknownNameError(msg)
    a, b = parts[one], parts[other]
    pairs = [*_pairs(compiled, a, b), *_pairs(compiled, b, a)]
    return min(pairs, key=lambda pair: RANK[pair.joined.fit], default=None)


def _pairs(compiled: Compiled, below: Part, above: Part) -> list[Pair]:
    found = []
    for on in below.carries:
        best = compiled.joiner.best(below, on, above) if above.kind in on.takes else None
        if best:
            by, joined = best
            finding = joint_finding(joined, on.joint, below, above)
            found.append(Pair(below, above, on, by, joined, finding))
    return found
