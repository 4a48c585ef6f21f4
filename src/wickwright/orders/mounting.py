"""The lamp as ordered, and which of its faults are faults of the order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Need, Service
from wickwright.fit.assemble import assemble, forest
from wickwright.fit.audit import audit, called
from wickwright.fit.flags import buyable
from wickwright.fit.joints.verdict import ACCEPTED
from wickwright.orders.availability import contents
from wickwright.orders.completing import completions, found_in_all
from wickwright.orders.understood import OrderFault, fault_of
from wickwright.terms.finding import Finding, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.orders.understood import Understood
    from wickwright.terms.finding import Fact

__all__ = ["first_of_each_kind", "on_the_lamp"]


@dataclass(frozen=True, slots=True)
class _Fitted:
    """The lamp as ordered: the trees, and which parts were ordered or come with them."""

    trees: tuple[Assembly, ...]
    fresh: frozenset[str]
    whole: bool


def on_the_lamp(compiled: Compiled, understood: Understood) -> Iterator[OrderFault]:
    """Yield what is wrong with the ordered parts where they go on the lamp."""
    ordered = first_of_each_kind(understood)
    if not ordered:
        return
    fitted = _fitted(compiled, understood, ordered)
    rows = {part.id: line.row for line, part, _ in reversed(understood.wanted)}
    by_id = {part.id: part for part in ordered}
    for tree in fitted.trees:
        for finding in audit(tree, understood.lamp, understood.place, compiled.joiner):
            named = _named(finding, by_id, tree)
            if named:
                fault, part = named
                yield _lamp_fault(fault, by_id[part], rows[part], finding)
        if fitted.whole:
            yield from _empty_ports(tree, by_id, rows)
            yield from _without_place(compiled, understood, tree, by_id, rows)


def first_of_each_kind(understood: Understood) -> tuple[Part, ...]:
    """Ordered parts to be mounted: one of each kind."""
    by_kind: dict[str, Part] = {}
    for part in understood.parts:
        by_kind.setdefault(part.kind, part)
    return tuple(by_kind.values())


def _fitted(compiled: Compiled, understood: Understood, ordered: Sequence[Part]) -> _Fitted:
    book = compiled.book
    kinds = {part.kind: part for part in ordered}
    for part in ordered:
        for number in contents(book, part):
            kinds.setdefault(book.parts[number].kind, book.parts[number])
    fresh = frozenset(part.id for part in kinds.values())
    if understood.lamp is None:
        return _Fitted(forest(tuple(kinds.values()), compiled.joiner), fresh, whole=False)
    for number in understood.lamp.as_sold:
        kinds.setdefault(book.parts[number].kind, book.parts[number])
    built = _without_misfits(compiled, tuple(kinds.values()), fresh)
    return _Fitted((built,), fresh, whole=True)


def _without_misfits(
    compiled: Compiled, parts: tuple[Part, ...], fresh: frozenset[str]
) -> Assembly:
    """Put together, putting aside old parts that do not fit the new ones."""
    joiner = compiled.joiner
    while True:
        built = assemble(parts, joiner)
        old = {
            above.part.id
            for below, above in built.joints()
            if above.part.id not in fresh and above.on and below.part.id in fresh
            for best in (joiner.best(below.part, above.on, above.part),)
            if best is None or best[1].fit not in ACCEPTED
        } | {part.id for part in built.loose if part.id not in fresh}
        if not old:
            return built
        parts = tuple(part for part in parts if part.id not in old)


_BY_RULE = {
    "heat": "not-heat-rated",
    "heat-unknown": "not-known",
    "draft": "wrong-for-place",
    "draft-unknown": "not-known",
    "tips": "tips",
    "oil-and-electric": "oil-beside-electric",
}
"""The fault an audit's rule is for an ordered part."""


def _named(finding: Finding, ordered: dict[str, Part], tree: Assembly) -> tuple[str, str] | None:
    """Which fault of which ordered part a finding is; None when it is none."""
    if finding.severity < Severity.UNKNOWN:
        return None
    if finding.rule == "tips":
        return _tipping(ordered, tree)
    if finding.rule == "unweighed":
        return next((("not-known", part) for part in finding.parts if part in ordered), None)
    if finding.rule.startswith("joint-"):
        below, above = finding.parts
        part = above if above in ordered else below
        return (_joint_fault(finding), part) if part in ordered else None
    return _of_rule(finding, ordered)


def _of_rule(finding: Finding, ordered: dict[str, Part]) -> tuple[str, str] | None:
    fault = _BY_RULE.get(finding.rule)
    told = fault is not None and finding.parts[0] in ordered
    if fault == "oil-beside-electric" and told:
        told = _meets(ordered, finding.parts)
    return (fault, finding.parts[0]) if fault and told else None


def _meets(ordered: dict[str, Part], parts: tuple[str, ...]) -> bool:
    """Whether an ordered part meets the other service, not only misses its own burner."""
    part, burner = ordered[parts[0]], parts[1]
    return part.service is Service.OIL or burner in ordered


def _joint_fault(finding: Finding) -> str:
    if finding.severity is Severity.UNKNOWN:
        return "not-known"
    over = finding.rule == "joint-lampholder" and finding.facts["why"] == "limit"
    return "over-limit" if over else "wrong-joint"


def _tipping(ordered: dict[str, Part], tree: Assembly) -> tuple[str, str] | None:
    """Lay tipping at the door of the ordered part that stands highest."""
    for it in reversed([*tree.walk()]):
        if it.part.kind in ("shade", "chimney", "holder", "burner") and it.part.id in ordered:
            shade = tree.of_kind("shade")
            part = shade.part.id if shade and shade.part.id in ordered else it.part.id
            return "tips", part
    return None


_RULES = {
    "tips": "tips-as-ordered",
    "not-known": "not-known-as-ordered",
}


_ONCE_CARRIED = {**_RULES, "tips": "tips-once-carried"}


def _lamp_fault(
    fault: str, part: Part, row: int, finding: Finding, rules: Mapping[str, str] = _RULES
) -> OrderFault:
    own = Finding(rules.get(fault, fault), finding.severity, (part.id,), {"part": called(part)})
    return OrderFault(fault, part.id, row, own, because=finding)


def _empty_ports(
    tree: Assembly, ordered: dict[str, Part], rows: dict[str, int]
) -> Iterator[OrderFault]:
    for it in tree.walk():
        if it.part.id not in ordered:
            continue
        for port in it.empty_ports():
            if port.need is Need.REQUIRED:
                needed = " or ".join(port.takes)
                facts: dict[str, Fact] = {
                    "part": called(it.part),
                    "reason": f"it needs a {needed}, and neither the lamp nor the order has one "
                    "that fits",
                    "needed": f"a {needed} that fits",
                }
                yield fault_of(
                    "missing-companion", it.part.id, rows[it.part.id], Severity.FAULT, facts
                )


def _without_place(
    compiled: Compiled,
    understood: Understood,
    tree: Assembly,
    ordered: dict[str, Part],
    rows: dict[str, int],
) -> Iterator[OrderFault]:
    burner = tree.of_kind("burner")
    for part in tree.loose:
        if part.id not in ordered or (burner and _mixed(part, burner.part, ordered)):
            continue
        whole = [*completions(compiled, tree, part)]
        lamp, place = understood.lamp, understood.place
        dangers = [
            (named[0], finding)
            for finding in found_in_all(compiled, lamp, place, (built for _, built in whole))
            if (named := _named(finding, {part.id: part}, whole[0][1]))
        ]
        rule = "carrier-would-harm" if dangers else "missing-carrier"
        yield _no_carrier(rule if whole else "missing-companion", part, rows[part.id], whole)
        for fault, finding in dangers:
            yield _lamp_fault(fault, part, rows[part.id], finding, _ONCE_CARRIED)


def _no_carrier(
    rule: str, part: Part, row: int, whole: Sequence[tuple[Part, Assembly]]
) -> OrderFault:
    had = [carrier for carrier, _ in whole if buyable(carrier, 1)]
    such = f"{had[0].kind} such as {called(had[0])}" if had else f"what carries a {part.kind}"
    facts: dict[str, Fact] = {
        "part": called(part),
        "reason": f"nothing on the lamp or in the order takes a {part.kind}",
        "needed": f"a {such}" if had else such,
    }
    return fault_of(rule, part.id, row, Severity.FAULT, facts, "missing-companion")


def _mixed(part: Part, burner: Part, ordered: dict[str, Part]) -> bool:
    """Whether a part without a place is of the other service, which is told elsewhere."""
    services = {part.service, burner.service}
    return len(services - {None}) == 2 and _meets(ordered, (part.id, burner.id))  # noqa: PLR2004 - two services
