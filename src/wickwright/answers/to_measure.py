"""Which measurements would settle what is not known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from wickwright.terms.finding import Finding

__all__ = ["settled_by", "to_measure"]


def to_measure(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Name what has to be measured, or asked of a maker.

    Parameters
    ----------
    findings : iterable of Finding
        Of a route; only what is not known is looked at.

    Returns
    -------
    tuple of str
        Each once, such as ``'diameter of Sule font (FO-2110)'``.
    """
    unknown = (one for one in findings if one.severity is Severity.UNKNOWN)
    return tuple(dict.fromkeys(text for one in unknown for text in settled_by(one)))


_BY_RULE: Final[Mapping[str, str]] = {
    "heat-unknown": "heat rating of {part}: ask its maker",
    "ask-unknown": "{column} of {part}",
    "draft-unknown": "height of {part}",
    "unweighed": "mass and centre of mass of {part}",
}


def settled_by(finding: Finding) -> Iterator[str]:
    """Yield the measurements that would settle one finding.

    Parameters
    ----------
    finding : Finding
        That something is not known.

    Yields
    ------
    str
        What to measure, and of which part.
    """
    missing = finding.facts.get("missing", ())
    for one in missing if isinstance(missing, tuple) else ():
        side, _, column = one.partition(" ")
        yield f"{column} of {finding.facts[side]}"
    if finding.rule in _BY_RULE:
        yield _BY_RULE[finding.rule].format_map(finding.facts)
