"""Small phrases the pages share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.words.book_words import JOINT_ONLY, listed
from wickwright.catalogue.records import Status
from wickwright.cli.layout import bullet
from wickwright.terms.finding import Kind, Quantity, Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.catalogue.records import Part
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = [
    "JOINT_ONLY",
    "SEVERITY",
    "availability",
    "bare_money",
    "cautions",
    "finding_lines",
    "listed",
    "money",
]

SEVERITY: dict[Severity, str] = {
    Severity.GOOD: "",
    Severity.NOTE: "Note: ",
    Severity.CAUTION: "Mind: ",
    Severity.UNKNOWN: "Not known: ",
    Severity.FAULT: "Fault: ",
    Severity.DANGER: "DANGER: ",
}
"""What stands before a finding."""


def money(amount: int, units: Units) -> str:
    """Return an amount with its currency."""
    return say(Quantity(amount, Kind.MONEY), units)


def bare_money(amount: int | None) -> str:
    """Return an amount for a column of prices."""
    return "" if amount is None else f"{amount / 100:,.2f}"


def availability(part: Part) -> str:
    """Say whether a part can be had, blank when it is simply made."""
    if part.status is Status.STOCKS:
        return f"while stocks last, {part.stock or 0} left"
    return "" if part.status is Status.MADE else str(part.status)


def finding_lines(finding: Finding, units: Units, width: int) -> list[str]:
    """Put a finding into lines: what was found, then what mends it."""
    from wickwright.answers.words.wording import sentence  # noqa: PLC0415 - pages load it when needed

    words = sentence(finding, units)
    known = finding.severity > (
        Severity.UNKNOWN if finding.rule.startswith("joint-") else Severity.NOTE
    )
    cure = f" {words.cure}" if known else ""
    return bullet(f"{SEVERITY[finding.severity]}{words.says}{cure}", width)


def cautions(sentences: Iterable[str], width: int) -> Iterator[str]:
    """Yield the usual cautions."""
    yield "To be said with every part:"
    for one in sentences:
        yield from bullet(one, width)
