"""A fit book that can be read, held to more: figures nobody can mean, lamps that never were.

Reading a book finds what contradicts itself row by row. Here each lamp is put together as it
was sold, which takes the joints; so it is asked for by itself and not at every question.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.words.wording import sentence
from wickwright.catalogue.faults import Fault
from wickwright.catalogue.links import places
from wickwright.catalogue.plausible import implausible
from wickwright.catalogue.reading import place_of
from wickwright.catalogue.sheets import read_sheets
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.joiner import Joiner
from wickwright.fit.place import Place
from wickwright.terms.finding import Severity
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.catalogue.assembly import Assembly, Mounted
    from wickwright.catalogue.faults import RawTable
    from wickwright.catalogue.records import Book, Lamp, Port
    from wickwright.catalogue.sheets import Sheets
    from wickwright.fit.settings import Settings
    from wickwright.terms.finding import Finding

__all__ = ["check_book"]


def check_book(book: Book, tables: Sequence[RawTable], settings: Settings) -> tuple[Fault, ...]:
    """Hold a fit book without faults to what its rows say together.

    Parameters
    ----------
    book : Book
        As read from ``tables``.
    tables : sequence of RawTable
        Where its rows stand.
    settings : Settings
        Limits in force.

    Returns
    -------
    tuple of Fault
        By table, row and column. Sure: a lamp as sold whose parts do not go together, lack
        something or run on the wrong service, and figures that contradict each other.
        Doubts: figures outside what is likely, and lamps that as sold would overheat,
        starve at sea level or tip.
    """
    sheets = read_sheets(tables, [])
    joiner = Joiner(settings)
    rows = _Rows(sheets)
    found = {*implausible(sheets)}
    for lamp in book.lamps.values():
        found |= {*_of_lamp(rows, book, lamp, joiner)}
    return tuple(sorted(found, key=place_of))


class _Rows:
    """Where lamps, parts and ports stand in their tables."""

    def __init__(self, sheets: Sheets) -> None:
        lamps, parts, ports = sheets["lamps"], sheets["parts"], sheets["ports"]
        self._lamps = {key: lamps.rows[at] for key, at in places(lamps).items()}
        self._parts = {key: parts.rows[at] for key, at in places(parts).items()}
        keys = zip(ports.texts["part"], ports.texts["port"], strict=True)
        self._ports = dict(zip(keys, ports.rows, strict=True))

    def lamp(self, lamp: str) -> int:
        """Return the row of a lamp."""
        return self._lamps[lamp]

    def part(self, part: str) -> str:
        """Say where a part stands."""
        return f"{part} (parts, row {self._parts[part]})"

    def port(self, part: str, port: str) -> str:
        """Say where a port stands."""
        return f"{port} of {part} (ports, row {self._ports[part, port]})"


def _of_lamp(rows: _Rows, book: Book, lamp: Lamp, joiner: Joiner) -> Iterator[Fault]:
    sold = assemble([book.parts[part] for part in lamp.as_sold], joiner)
    yield from _wrong_service(rows, lamp, sold)
    for finding in audit(sold, lamp, Place(), joiner):
        if finding.severity > Severity.UNKNOWN and finding.rule != "no-place":
            yield _fault(rows, lamp, sold, finding)
    if sold.loose:
        names = ", ".join(part.id for part in sold.loose)
        what = f"as sold: {names} {'has' if len(sold.loose) == 1 else 'have'} nothing to stand on"
        cure = f"add what carries them, correct what the others take, {_INSTEAD}"
        yield Fault("lamps", rows.lamp(lamp.id), "as_sold", what, cure)


def _wrong_service(rows: _Rows, lamp: Lamp, sold: Assembly) -> Iterator[Fault]:
    burner = sold.of_kind("burner")
    service = burner.part.service if burner else None
    if burner and service and service is not lamp.service:
        what = (
            f"the lamp is sold for {lamp.service}, but its burner {burner.part.id} is for {service}"
        )
        cure = f"write {service}, or name the burner it was sold with"
        yield Fault("lamps", rows.lamp(lamp.id), "service", what, cure)


_DOUBTED = ("heat", "draft", "tips")
"""Rules that a lamp once sold may indeed have broken."""


def _fault(rows: _Rows, lamp: Lamp, sold: Assembly, finding: Finding) -> Fault:
    says = sentence(finding, Units()).says.rstrip(".")
    column = "needs" if finding.rule == "needs" else "as_sold"
    what = f"as sold: {says[:1].lower() + says[1:] if says.startswith('The ') else says}"
    cure = _cure(rows, sold, finding)
    row, doubt = rows.lamp(lamp.id), finding.rule in _DOUBTED
    return Fault("lamps", row, column, what, cure, doubt=doubt)


_INSTEAD = "or name the part it was sold with"
_LEFT = "or leave it, if it was sold so"
_CURES = {
    "incomplete": "add the {kinds} to the parts as sold, or correct the ports of {where}",
    "needs": "add the {kinds} to the parts as sold, or clear the need",
    "oil-and-electric": f"correct the service of {{where}}, {_INSTEAD}",
    "heat": f"correct rating or heat of {{where}}; {_LEFT}",
    "draft": f"correct height or least chimney of {{where}}; {_LEFT}",
    "tips": f"check mass, centre and radius of {{where}} and of the others; {_LEFT}",
}


def _cure(rows: _Rows, sold: Assembly, finding: Finding) -> str:
    """Say which rows to look at."""
    if finding.rule.startswith("joint-"):
        return f"correct {_halves(rows, sold, finding)}, {_INSTEAD}"
    where = " and ".join(rows.part(part) for part in finding.parts)
    return _CURES[finding.rule].format(kinds=finding.facts.get("kinds"), where=where)


def _halves(rows: _Rows, sold: Assembly, finding: Finding) -> str:
    """Name the two ports of a joint."""
    return " and ".join(
        rows.port(it.part.id, port.name)
        for below, above in sold.joints()
        if (below.part.id, above.part.id) == finding.parts
        for it, port in _ports(below, above)
    )


def _ports(below: Mounted, above: Mounted) -> Iterator[tuple[Mounted, Port]]:
    if above.on and above.by:
        yield below, above.on
        yield above, above.by
