"""Wishes that ask for something in a way that nothing could answer."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from wickwright.catalogue.cells import (
    CellError,
    parse_length,
    parse_number,
    parse_signed,
    parse_year,
    word_of,
)
from wickwright.catalogue.links import places
from wickwright.catalogue.lists import ASKS, FIELDS, LISTS
from wickwright.catalogue.spelling import meant, quoted
from wickwright.terms.dimension import DimensionError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["check_wishes"]

_KIND_ALONE = (("kind",), ())
_TESTED = (("field", "test", "value"), ("kind",))
_ASK_COLUMNS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "renew": _KIND_ALONE,
    "present": _KIND_ALONE,
    "absent": _KIND_ALONE,
    "only": _TESTED,
    "never": _TESTED,
    "brighter": ((), ("value",)),
    "service": (("value",), ()),
}
"""The columns each ask must fill, and those it may."""

_YEARS: dict[str, Callable[[str], object]] = {"from": parse_year, "to": parse_year}
_MEASURES: dict[str, Callable[[str], object]] = {
    "height": parse_length,
    "heat_rating": parse_number,
}
_NUMBERS: dict[str, Callable[[str], object]] = {**_YEARS, **_MEASURES, "light": parse_signed}
"""The fields that can be at least or at most something; measures cannot be anything else."""

_WORDS: dict[str, str] = {
    "material": "materials",
    "status": "statuses",
    "style": "styles",
    "service": "services",
    "joint": "joints",
}
"""The closed lists of the other fields."""

_POINTS = re.compile(r"[1-9][0-9]{0,2}")
_OWN = {"from": ("@from", "@to"), "to": ("@from", "@to"), "joint": ("@joint",)}
"""The lamp's own values a field may be tested against."""


class _Row(NamedTuple):
    """One row of the table of wishes, stripped."""

    wish: str
    title: str
    ask: str
    kind: str
    field: str
    test: str
    value: str


def _values(row: _Row) -> tuple[str, ...]:
    """Return what a field is compared with, one by one; ``in`` has commas between them."""
    if row.test != "in":
        return (row.value,)
    return tuple(one.strip() for one in row.value.split(","))


def _check_columns(sheet: Sheet, at: int, row: _Row) -> bool:
    """Note blank and superfluous cells of an ask; True when there are none."""
    must, may = _ASK_COLUMNS[row.ask]
    before = len(sheet.faults)
    for name in ("kind", "field", "test", "value"):
        text = sheet.texts[name][at]
        if name in must and not text:
            what = f"the ask '{row.ask}' needs a {name}"
            sheet.fault(at, name, what, f"fill in: {', '.join(must)}")
        elif text and name not in must and name not in may:
            what = f"the ask '{row.ask}' has no {name}"
            used = (*must, *may)
            cure = f"clear the cell; it uses: {', '.join(used)}"
            sheet.fault(at, name, what, cure)
    return len(sheet.faults) == before


def _check_test(sheet: Sheet, at: int, row: _Row, parts: Mapping[str, int] | None) -> None:
    """Note a test that does not suit its field, or a value that does not."""
    ordered = row.test in ("at least", "at most")
    if ordered and row.field not in _NUMBERS:
        what = f"{row.field} cannot be {row.test} something"
        cure = f"write is or in, or test one of: {', '.join(_NUMBERS)}"
        sheet.fault(at, "test", what, cure)
        return
    if row.field in _MEASURES and not ordered:
        what = f"{row.field} is measured and is never exactly a value"
        sheet.fault(at, "test", what, "write at least or at most")
        return
    if row.value in _OWN.get(row.field, ()):
        _check_own(sheet, at, row)
        return
    for value in _values(row):
        _check_value(sheet, at, row.field, value, parts)


def _check_own(sheet: Sheet, at: int, row: _Row) -> None:
    if row.value == "@joint" and not row.kind:
        cure = "write the kind of part whose joint is meant"
        sheet.fault(at, "kind", "the value '@joint' needs a kind", cure)


def _check_value(
    sheet: Sheet, at: int, field: str, value: str, parts: Mapping[str, int] | None
) -> None:
    if field == "part":
        if parts is not None and value not in parts:
            cure = f"{meant(value, parts)}write the key of a row of the table parts"
            sheet.fault(at, "value", f"there is no part {quoted(value)}", cure)
        return
    listed = _WORDS.get(field, "")
    try:
        (word_of(listed, LISTS[listed]) if listed else _NUMBERS[field])(value)
    except (CellError, DimensionError) as error:
        own = f"; or the lamp's own: {', '.join(_OWN[field])}" if field in _OWN else ""
        sheet.fault(at, "value", error.what, error.cure + own)


def _check_ask(sheet: Sheet, at: int, row: _Row, parts: Mapping[str, int] | None) -> None:
    if row.ask not in ASKS or not _check_columns(sheet, at, row):
        return
    if row.ask in ("only", "never"):
        if row.field in FIELDS and row.test in LISTS["tests"]:
            _check_test(sheet, at, row, parts)
    elif row.ask == "service":
        _check_value(sheet, at, "service", row.value, parts)
    elif row.ask == "brighter" and row.value and not _POINTS.fullmatch(row.value):
        what = f"{quoted(row.value)} is not a number of light points"
        sheet.fault(at, "value", what, "write digits, such as 10 for about 10 % more light")


def _check_title(sheet: Sheet, at: int, row: _Row, titles: dict[str, str], before: str) -> None:
    """Note a first row without title, a later one with another, and a wish torn apart."""
    if row.wish not in titles:
        titles[row.wish] = row.title
        if not row.title:
            what = f"the first row of the wish {quoted(row.wish)} has no title"
            sheet.fault(at, "title", what, "write the wish in words")
        return
    if row.wish != before:
        what = f"the rows of the wish {quoted(row.wish)} do not stand together"
        cure = "move this row up to the others, or give it another name"
        sheet.fault(at, "wish", what, cure)
    if row.title not in ("", titles[row.wish]):
        what = f"the wish {quoted(row.wish)} already has another title"
        cure = "leave the title blank on all rows but the first"
        sheet.fault(at, "title", what, cure)


def check_wishes(sheets: Sheets) -> None:
    """Note what cannot be about the wishes.

    Parameters
    ----------
    sheets : dict of str to Sheet
        The book; faults are added to the sheet ``wishes``.
    """
    sheet, parts = sheets["wishes"], sheets["parts"]
    keys = places(parts) if parts.known else None
    titles: dict[str, str] = {}
    before = ""
    for at, cells in enumerate(zip(*(sheet.texts[name] for name in _Row._fields), strict=True)):
        row = _Row(*cells)
        if row.wish:
            _check_title(sheet, at, row, titles, before)
        before = row.wish
        _check_ask(sheet, at, row, keys)
