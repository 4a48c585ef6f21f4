"""One rule as lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.cli.layout import paragraph, table
from wickwright.fit.joints import JOINTS
from wickwright.fit.rules import rule_key
from wickwright.fit.settings import TIP_LIMITS
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.source import SOURCES
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.limits_in_force import InForce
    from wickwright.terms.finding import Rule

__all__ = ["rule_lines"]

_SKETCHES = {rule_key(name): joint.sketch for name, joint in JOINTS.items()}


def rule_lines(rule: Rule, limits: Sequence[InForce], units: Units, width: int) -> list[str]:
    """Lay out a rule: what it says, why, its cure, its source, its numbers, what would break it."""
    lines = paragraph(f"{rule.key}: {rule.title}", width)
    for title, text in (
        ("says", rule.says),
        ("why", rule.why),
        ("cure", rule.cure),
        ("source", _source(rule.source)),
        ("broken by", rule.breaks),
    ):
        lines += paragraph(text, width, f"  {title:<10}", " " * 12)
    if limits:
        rows = [(one.says, say(one.value, units), _known_as(one.source)) for one in limits]
        lines += ["  in force:", *table(rows, width, indent="    ", wrapped=(0, 1, 2))]
    if rule.key in ("tips", "stands"):
        lines += ["  limits to choose from with --tip-limit:", *_limits(width)]
    if rule.key in _SKETCHES:
        lines += ["", *_SKETCHES[rule.key].strip("\n").splitlines()]
    return lines


def _source(key: str) -> str:
    """Return title of a source and how far it was followed."""
    source = SOURCES[key]
    return f"{source.title} [{key}]: {source.seen.value}"


def _known_as(key: str) -> str:
    """Return the key of a source, and how far it was followed unless the key says so."""
    seen = SOURCES[key].seen
    return key if key in ("book", "assumption") else f"{key}: {seen.value}"


def _limits(width: int) -> Iterator[str]:
    rows = [
        (name, say(Quantity(limit.angle, Kind.ANGLE), Units()), _source(limit.source))
        for name, limit in TIP_LIMITS.items()
    ]
    yield from table(rows, width, indent="    ", rights=(1,), wrapped=(2,))
