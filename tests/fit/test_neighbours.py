"""Which parts fit a port, against every pair judged by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.demo import demo

from wickwright.fit.joints.verdict import ACCEPTED

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.records import Part, Port


def _judged(part: Part, port: Port) -> set[str]:
    """Return the parts that fit a port, each pair of parts judged."""
    joiner = demo().joiner
    return {
        other.id
        for other in demo().parts
        for on, by, below, above in _halves(part, port, other)
        if above.kind in on.takes and on.joint == by.joint
        if joiner.joined(below, on, above, by).fit in ACCEPTED
    }


def _halves(part: Part, port: Port, other: Part) -> Iterator[tuple[Port, Port, Part, Part]]:
    if port.takes:
        yield from ((port, by, part, other) for by in other.stands)
    else:
        yield from ((on, port, other, part) for on in other.carries)


def test_what_fits_a_port_is_what_every_single_joint_says() -> None:
    """If this failed, the page of a part would show parts that do not fit it, or hide some."""
    ports = [(part, port) for part in demo().parts for port in part.ports]
    found = [demo().neighbours.of(part, port) for part, port in ports]
    assert found == [_judged(part, port) for part, port in ports]
    assert sum(map(len, found)) > len(ports)
