"""Why each line of an order put right is there, or is not."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from wickwright.answers.words.reason_words import reasons_words
from wickwright.answers.words.reasons import Why, reasons
from wickwright.answers.words.wording import sentence
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from wickwright.answers.words.reasons import Reason
    from wickwright.catalogue.assembly import Mounted
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.orders.checking import Checked
    from wickwright.orders.mending import Mended
    from wickwright.orders.understood import OrderFault
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["Change", "Did", "change_words", "changes"]


class Did(StrEnum):
    """What was done with a line."""

    KEPT = "kept"
    EXCHANGED = "exchanged"
    ADDED = "added"
    LEFT_OUT = "left out"


@dataclass(frozen=True, slots=True)
class Change:
    """One line of an order put right, beside the order as written.

    Attributes
    ----------
    did : Did
        What was done.
    part : Part or None
        What is sent; None when the line is left out.
    line : int or None
        Which line of the order, counted from 0; None when the line is added.
    cures : tuple of int
        Which faults of the order are gone by it, counted from 0.
    reasons : tuple of Reason
        Why the part is there, besides: when it is added.
    finding : Finding or None
        What would be wrong with the part ordered, when it has no fault by itself.
    given_up : str
        The kind, when a line is left out because none can be had for the lamp.
    comes : Part or None
        What comes with another part in the place of the line left out.
    """

    did: Did
    part: Part | None
    line: int | None
    cures: tuple[int, ...] = ()
    reasons: tuple[Reason, ...] = ()
    finding: Finding | None = None
    given_up: str = ""
    comes: Part | None = None


def changes(compiled: Compiled, checked: Checked, mended: Mended) -> tuple[Change, ...]:
    """Say what was done with each line of an order, and why.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    checked : Checked
        The order with its faults.
    mended : Mended
        The order put right.

    Returns
    -------
    tuple of Change
        What is sent, in the order of ``mended.lines``; then what is left out, by row.
    """
    lines = {line.row: at for at, line in enumerate(checked.understood.order.lines)}
    firsts: dict[str, tuple[int, Part]] = {}
    for line, part, _ in checked.understood.wanted:
        firsts.setdefault(part.kind, (lines[line.row], part))
    why = reasons(compiled, mended.now, mended.route)
    sent = [
        _exchanged(compiled, checked, mended, part, *firsts[part.kind])
        if part.kind in firsts
        else Change(Did.ADDED, part, None, _cured(checked, mended, part), why[part.id])
        for part, _ in mended.lines
    ]
    used = {change.line for change in sent}
    left = [_left_out(checked, mended, at) for at in lines.values() if at not in used]
    return (*sent, *left)


def _exchanged(
    compiled: Compiled, checked: Checked, mended: Mended, part: Part, at: int, old: Part
) -> Change:
    if part.id == old.id:
        return Change(Did.KEPT, part, at)
    cured = tuple(_faults(checked, lambda fault: fault.part == old.id))
    finding = None if cured else _with(compiled, mended, part, old)
    return Change(Did.EXCHANGED, part, at, cured, finding=finding)


def _with(compiled: Compiled, mended: Mended, part: Part, old: Part) -> Finding | None:
    """Find what would be wrong with an ordered part on the finished lamp."""
    route, request = mended.route, mended.now.request
    parts = [old if it.part.id == part.id else it.part for it in route.assembly.walk()]
    lamp = compiled.book.lamps[request.lamp]
    found = audit(assemble(parts, compiled.joiner), lamp, request.place, compiled.joiner)
    return next((finding for finding in found if finding.severity >= Severity.UNKNOWN), None)


def _faults(checked: Checked, holds: Callable[[OrderFault], bool]) -> Iterator[int]:
    return (at for at, fault in enumerate(checked.faults) if holds(fault))


_BY_A_COMPANION = ("wrong-joint", "wrong-for-place", "not-known")
"""Faults of a part that is kept which what is added to it can cure."""


def _cured(checked: Checked, mended: Mended, added: Part) -> tuple[int, ...]:
    """Which faults are gone by an added part: of what it carries and of what carries it."""
    beside = {it.part.kind: it.part.id for it in _in_line(mended.route.assembly.walk(), added)}
    kinds = {part.id: part.kind for part in checked.understood.parts}

    def gone(fault: OrderFault) -> bool:
        kind = kinds.get(fault.part, "")
        kept = beside.get(kind) == fault.part
        companion = fault.fault == "missing-companion" and kind in beside
        return companion or (kept and fault.fault in _BY_A_COMPANION)

    return tuple(_faults(checked, gone))


def _in_line(mounted: Iterator[Mounted], part: Part) -> Iterator[Mounted]:
    """Yield what a part carries and what carries it, itself among them."""
    for it in mounted:
        if any(above.part.id == part.id for above in it.walk()):
            yield it
            if it.part.id == part.id:
                yield from it.walk()


def _left_out(checked: Checked, mended: Mended, at: int) -> Change:
    row = checked.understood.order.lines[at].row
    wanted = {line.row: part for line, part, _ in checked.understood.wanted}
    part = wanted.get(row)
    kind = part.kind if part and part.kind in mended.given_up else ""
    cured = tuple(
        _faults(
            checked,
            lambda fault: fault.row == row or (part is not None and fault.part == part.id),
        )
    )
    included = mended.route.included if part else ()
    comes = next((one for one in included if part and one.kind == part.kind), None)
    return Change(Did.LEFT_OUT, None, at, cured, given_up=kind, comes=comes)


# -- words -----------------------------------------------------------------------------------


def change_words(change: Change, checked: Checked, units: Units) -> str:
    """Put what was done with a line, and why, into words.

    Parameters
    ----------
    change : Change
        One line.
    checked : Checked
        The order it is of.
    units : Units
        What to print in.

    Returns
    -------
    str
        A clause without a full stop.
    """
    old = "" if change.line is None else checked.understood.order.lines[change.line].part
    if change.part is None:
        return f"{old or 'a line'} left out: {_why_left_out(change, old, checked)}"
    if change.did is Did.KEPT:
        return f"{change.part.id} as ordered"
    head = f"{change.part.id} added"
    if change.did is Did.EXCHANGED:
        head = f"{change.part.id} in place of {old}"
    return f"{head}: {'; '.join(_whys(change, checked, units))}"


def _whys(change: Change, checked: Checked, units: Units) -> Iterator[str]:
    told = [one for one in change.reasons if one.why is not Why.ASKED]
    if told:
        yield reasons_words(told, units)
    if change.finding:
        yield f"with the one ordered, {sentence(change.finding, units).says.rstrip('.')}"
    if change.cures:
        yield f"cures {_named(change.cures, checked)}"
    elif not told and not change.finding:
        yield "no way was found that keeps the one ordered with the rest"


_UNTIL = {
    "unknown-part": "until it is known which part is meant",
    "bad-quantity": "until the quantity is known",
    "unread-cell": "until the row can be read",
}


def _why_left_out(change: Change, old: str, checked: Checked) -> str:
    faults = {checked.faults[at].fault for at in change.cures}
    until = next((words for fault, words in _UNTIL.items() if fault in faults), "")
    if until:
        return until
    whys = []
    if change.given_up:
        whys.append(f"no {change.given_up} that serves can be had for this lamp")
    if change.comes:
        other = "it" if change.comes.id == old else f"{change.comes.id} in its place"
        whys.append(f"{other} comes with what is sent")
    if change.cures:
        whys.append(f"cures {_named(change.cures, checked)}")
    return "; ".join(whys) or "the lamp takes one of its kind"


def _named(cures: Sequence[int], checked: Checked) -> str:
    faults = (checked.faults[at] for at in cures)
    return ", ".join(f"{fault.fault} (row {fault.row})" for fault in faults)
