"""Whether one part stands on another, and how well."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.answers.which_parts import UnknownNameError
from wickwright.catalogue.spelling import meant, spelled
from wickwright.fit.joiner import RANK, Joiner
from wickwright.fit.joints import JOINTS
from wickwright.fit.joints.verdict import Warmth
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
    warmth : Warmth
        Temperatures it was judged at, beside 20 °C [K].
    """

    below: Part
    above: Part
    on: Port
    by: Port
    joined: Joined
    finding: Finding
    warmth: Warmth


def do_they_fit(
    compiled: Compiled,
    one: str,
    other: str,
    *,
    one_at: float | None = None,
    other_at: float | None = None,
) -> Pair | None:
    """Judge two parts against each other, whichever stands on the other.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    one, other : str
        Part numbers, capitals disregarded.
    one_at, other_at : float or None
        Their temperatures in service [K]; None takes those the settings have for the joint.

    Returns
    -------
    Pair or None
        None when neither carries parts of the other's kind.

    Raises
    ------
    UnknownNameError
        When a part is not in the book.
    """
    a, b = _parts(compiled, one, other)
    pairs = [
        *_pairs(_warmed(compiled, one_at, other_at), a, b),
        *_pairs(_warmed(compiled, other_at, one_at), b, a),
    ]
    return min(pairs, key=lambda pair: RANK[pair.joined.fit], default=None)


def _parts(compiled: Compiled, *names: str) -> list[Part]:
    """Look up parts by number; all that are not there are told at once."""
    parts = compiled.book.parts
    found = [parts.get(spelled(name, parts)) for name in names]
    unknown = [name for name, part in zip(names, found, strict=True) if part is None]
    if unknown:
        says = (f"there is no part '{it}' in the fit book: {meant(it, parts)}" for it in unknown)
        raise UnknownNameError("\n".join(f"{it}{_LISTED}" for it in says))
    return [part for part in found if part is not None]


_LISTED = "'wickwright book list parts' lists them all"


def _warmed(compiled: Compiled, below: float | None, above: float | None) -> Joiner:
    """Return a judge of joints at the temperatures given, and those in the settings else."""
    settings = compiled.settings
    if below is None and above is None:
        return compiled.joiner
    usual = {joint: settings.warmth(joint) for joint in JOINTS}
    warm = {
        joint: Warmth(
            carrier=it.carrier if below is None else below,
            stander=it.stander if above is None else above,
        )
        for joint, it in usual.items()
    }
    return Joiner(replace(settings, warm=warm), compiled.together)


def _pairs(joiner: Joiner, below: Part, above: Part) -> list[Pair]:
    found = []
    for on in below.carries:
        best = joiner.best(below, on, above) if above.kind in on.takes else None
        if best:
            by, joined = best
            finding = joint_finding(joined, on.joint, below, above)
            warmth = joiner.settings.warmth(on.joint)
            found.append(Pair(below, above, on, by, joined, finding, warmth))
    return found
