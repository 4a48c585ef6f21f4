"""The lamp as it would stand once a part without a place were given what carries it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.joints.verdict import ACCEPTED
from wickwright.terms.finding import Quantity, Severity

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Lamp, Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.place import Place
    from wickwright.terms.finding import Finding

__all__ = ["completions", "found_in_all"]


def completions(compiled: Compiled, tree: Assembly, part: Part) -> Iterator[tuple[Part, Assembly]]:
    """Yield each part that would carry a loose one, and the lamp with both.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    tree : Assembly
        The lamp, on which nothing takes the part.
    part : Part
        The loose part.

    Yields
    ------
    tuple of Part and Assembly
        Parts that can no longer be had among them: the caller may have one. Every joint of
        the two fits.
    """
    mounted = [it.part for it in tree.walk()]
    kinds = {one.kind for one in mounted}
    for carrier in _carriers(compiled, part):
        if carrier.kind not in kinds:
            built = assemble((*mounted, carrier, part), compiled.joiner)
            if _holds(compiled, built, (carrier, part)):
                yield carrier, built


def _carriers(compiled: Compiled, part: Part) -> Iterator[Part]:
    for carrier in compiled.parts:
        ports = (port for port in carrier.carries if part.kind in port.takes)
        best = (compiled.joiner.best(carrier, port, part) for port in ports)
        if any(one is not None and one[1].fit in ACCEPTED for one in best):
            yield carrier


def _holds(compiled: Compiled, built: Assembly, added: Sequence[Part]) -> bool:
    """Whether the added parts stand where they fit."""
    fitting = {
        above.part.id
        for below, above in built.joints()
        if above.on
        for best in (compiled.joiner.best(below.part, above.on, above.part),)
        if best is not None and best[1].fit in ACCEPTED
    }
    return all(part.id in fitting for part in added)


def found_in_all(
    compiled: Compiled, lamp: Lamp | None, place: Place, trees: Iterable[Assembly]
) -> tuple[Finding, ...]:
    """Return what is dangerous about a lamp whichever way it is completed.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : Lamp or None
        Its model.
    place : Place
        Where it stands.
    trees : iterable of Assembly
        The lamp completed in every way.

    Returns
    -------
    tuple of Finding
        For each rule that is dangerously broken in all of them, the mildest case.
    """
    by_tree = [
        {
            finding.rule: finding
            for finding in audit(tree, lamp, place, compiled.joiner)
            if finding.severity is Severity.DANGER
        }
        for tree in trees
    ]
    always = set(by_tree[0]).intersection(*by_tree[1:]) if by_tree else set()
    return tuple(
        min((found[rule] for found in by_tree), key=_beyond)
        for rule in (by_tree[0] if by_tree else ())
        if rule in always
    )


def _beyond(finding: Finding) -> float:
    """How far what is measured lies outside what is permitted."""
    if not isinstance(finding.measured, Quantity) or finding.permitted is None:
        return 0.0
    value, low, high = finding.measured.value, finding.permitted.low, finding.permitted.high
    return max(0.0, (low or value) - value, value - (high if high is not None else value))
