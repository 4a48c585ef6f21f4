"""What could be made of an order, and a fault for everything that could not."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.catalogue.spelling import meant, spelled
from wickwright.fit.audit import called
from wickwright.fit.place import Place
from wickwright.terms.finding import Finding, Severity
from wickwright.terms.units import UnitsError, parse_elevation

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.records import Book, Lamp, Part
    from wickwright.orders.lines import Line, Order
    from wickwright.terms.finding import Fact

__all__ = ["MOST", "OrderFault", "Understood", "fault_of", "understand"]

MOST = 99_999
"""More than any order asks for; larger figures are slips of the pen."""


@dataclass(frozen=True, slots=True)
class OrderFault:
    """One fault of an order.

    Attributes
    ----------
    fault : str
        Short name of the fault; stable, for scripts.
    part : str
        The ordered part, by number as written; blank when the lamp or place is meant.
    row : int
        Row in the order file.
    finding : Finding
        The rule broken, with its facts.
    because : Finding or None
        What was found on the lamp, measured beside permitted.
    """

    fault: str
    part: str
    row: int
    finding: Finding
    because: Finding | None = None


@dataclass(frozen=True, slots=True)
class Understood:
    """What could be made of an order.

    Attributes
    ----------
    lamp : Lamp or None
        Its lamp, when named and known.
    place : Place
        Where it stands.
    wanted : tuple of (Line, Part, int)
        Lines with a known part and a sound quantity.
    """

    order: Order
    lamp: Lamp | None
    place: Place
    wanted: tuple[tuple[Line, Part, int], ...]

    @property
    def parts(self) -> tuple[Part, ...]:
        """The ordered parts, each once, the first of each kind before others of it."""
        return tuple({part.id: part for _, part, _ in self.wanted}.values())


def understand(book: Book, order: Order) -> tuple[Understood, tuple[OrderFault, ...]]:
    """Look up what an order names.

    Parameters
    ----------
    book : Book
        The fit book.
    order : Order
        As written.

    Returns
    -------
    tuple of Understood and tuple of OrderFault
        What is known, and a fault for each name, place or quantity that cannot be read.
    """
    faults = [*_open_questions(order)]
    lamp = book.lamps.get(spelled(order.lamp, book.lamps))
    if order.lamp and lamp is None:
        facts: dict[str, Fact] = {"lamp": order.lamp, "meant": meant(order.lamp, book.lamps)}
        faults.append(fault_of("unknown-lamp", "", order.row, Severity.FAULT, facts))
    place = _place(order, faults)
    wanted = [
        (line, *known) for line in order.lines if (known := _wanted(book, line, faults)) is not None
    ]
    return Understood(order, lamp, place, tuple(wanted)), tuple(faults)


def place_of(text: str) -> Place | None:
    """Read where a lamp stands.

    Parameters
    ----------
    text : str
        Such as ``'1700 m'``; blank is sea level.

    Returns
    -------
    Place or None
        None when it cannot be read.
    """
    try:
        return Place(parse_elevation(text)) if text else Place()
    except UnitsError:
        return None


def _place(order: Order, faults: list[OrderFault]) -> Place:
    if not order.place:
        return Place()
    try:
        return Place(parse_elevation(order.place))
    except UnitsError as error:
        facts: dict[str, Fact] = {"detail": str(error)}
        faults.append(fault_of("bad-place", "", order.row, Severity.FAULT, facts))
        return Place()


def _open_questions(order: Order) -> Iterator[OrderFault]:
    """Yield what cannot be read, and what an order says twice over."""
    for line in order.lines:
        for one in line.unread:
            where = f"Column {one.column}: " if one.column else ""
            cure = one.cure if one.cure.endswith("?") else f"{one.cure}."
            facts: dict[str, Fact] = {"where": where, "what": one.what, "cure": cure}
            yield fault_of("unread-cell", line.part, line.row, Severity.FAULT, facts)
    if order.lamps:
        facts = {"order": order.id, "lamps": order.lamps}
        yield fault_of("two-lamps", "", order.row, Severity.FAULT, facts)
    if order.places:
        facts = {"order": order.id, "places": order.places}
        yield fault_of("two-places", "", order.row, Severity.FAULT, facts)


def _wanted(book: Book, line: Line, faults: list[OrderFault]) -> tuple[Part, int] | None:
    if {"", "part", "quantity"} & {one.column.lower() for one in line.unread}:
        return None
    part = book.parts.get(spelled(line.part, book.parts))
    count = _count(line.quantity)
    if part is None:
        facts: dict[str, Fact] = {"part": line.part, "meant": meant(line.part, book.parts)}
        faults.append(fault_of("unknown-part", line.part, line.row, Severity.FAULT, facts))
    elif count is None:
        facts = {"part": called(part), "quantity": line.quantity, "most": f"{MOST:,}"}
        faults.append(fault_of("bad-quantity", part.id, line.row, Severity.FAULT, facts))
    else:
        return part, count
    return None


def fault_of(
    key: str, part: str, row: int, severity: Severity, facts: dict[str, Fact], fault: str = ""
) -> OrderFault:
    """Make a fault of a rule of :mod:`wickwright.orders.rules`.

    Parameters
    ----------
    key : str
        The rule.
    part : str
        The ordered part, or blank.
    row : int
        Row in the order file.
    severity : Severity
        How much it matters.
    facts : dict
        What fills the rule's sentences.
    fault : str
        Short name of the fault where it is not the rule's key.

    Returns
    -------
    OrderFault
        Without a finding on the lamp behind it.
    """
    finding = Finding(key, severity, (part,) if part else (), facts)
    return OrderFault(fault or key, part, row, finding)


def _count(text: str) -> int | None:
    """Read a quantity; spreadsheets write 2 as 2.0."""
    plain = text.removesuffix(".0") or "1"
    return int(plain) if plain.isdecimal() and 0 < int(plain) <= MOST else None
