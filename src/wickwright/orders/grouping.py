"""Rows into orders: one lamp in one place each."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from wickwright.orders.lines import Line, Order
from wickwright.terms.units import UnitsError, parse_elevation

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from wickwright.orders.rows import Row

__all__ = ["orders_of"]

_REMEMBERED = 4_096
"""Different places remembered at once."""


def orders_of(rows: Iterable[Row]) -> Iterator[Order]:
    """Make orders of rows.

    Parameters
    ----------
    rows : iterable of Row
        Of one file.

    Yields
    ------
    Order
        By the first row of each number. A row without lamp or place takes the one that the
        other rows of its number name, where they name one only. Where they name several,
        there is an order for each lamp and place, and every one of them knows of the others.
        Rows without a number that follow one another are an order without a number.
    """
    numbered: dict[tuple[str, str], list[Row]] = {}
    above = ""
    for row in rows:
        above = row.order or above
        numbered.setdefault((row.order, "" if row.order else above), []).append(row)
    for group in numbered.values():
        yield from _one_lamp_each(group)


def _one_lamp_each(group: Sequence[Row]) -> Iterator[Order]:
    lamps = _parted(group, _lamp, str.casefold)
    for of_lamp in lamps:
        places = _parted(of_lamp, _place, _place_key)
        for rows in places:
            yield Order(
                rows[0].order,
                next(filter(None, map(_lamp, rows)), ""),
                next(filter(None, map(_place, rows)), ""),
                tuple(map(_line, rows)),
                lamps=_named(lamps, _lamp),
                places=_named(places, _place),
            )


def _lamp(row: Row) -> str:
    return row.lamp


def _place(row: Row) -> str:
    return row.place


def _parted(
    group: Sequence[Row], cell: Callable[[Row], str], key: Callable[[str], object]
) -> list[Sequence[Row]]:
    """Part rows by a cell; blanks go with the others where those agree."""
    parted: dict[object, list[Row]] = {}
    for row in group:
        parted.setdefault(key(cell(row)), []).append(row)
    if len(parted) - (key("") in parted) <= 1:
        return [group]
    return [*parted.values()]


def _named(groups: Sequence[Sequence[Row]], cell: Callable[[Row], str]) -> tuple[str, ...]:
    """Name what stands in each group, with its first row; nothing where there is one group."""
    if len(groups) == 1:
        return ()
    return tuple(f"{cell(rows[0]) or 'none'} (row {rows[0].number})" for rows in groups)


def _line(row: Row) -> Line:
    return Line(row.number, row.part, row.quantity, row.unread)


@lru_cache(_REMEMBERED)
def _place_key(text: str) -> float | str:
    """Return what is the same for one place written in two ways."""
    try:
        return parse_elevation(text)
    except UnitsError:
        return text.casefold()
