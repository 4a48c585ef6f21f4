"""What must hold of the looks that tell lamps apart, and of what they show."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from wickwright.catalogue.call_records import Way
from wickwright.catalogue.cells import CellError, parse_length
from wickwright.catalogue.check_flames import check_sources
from wickwright.catalogue.links import filled, places
from wickwright.catalogue.shares import check_shares
from wickwright.catalogue.spelling import meant, quoted
from wickwright.terms.dimension import DimensionError

if TYPE_CHECKING:
    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["check_marks"]

_CERTAIN = Decimal(50)


def _check_looks(looks: Sheet, marked: set[str]) -> None:
    """Note shares that cannot be, errors that mean nothing, and looks that show nothing.

    While no mark is filled in at all, none is missed.
    """
    check_shares(looks, ("right",), above=_CERTAIN)
    check_shares(looks, ("unsure",), below=True)
    columns = (looks.texts[name] for name in ("look", "way", "error"))
    for at, (look, way, error) in enumerate(zip(*columns, strict=True)):
        if error and way and way != Way.MEASURE:
            cure = f"clear the cell, or write {Way.MEASURE} as the way"
            looks.fault(at, "error", f"a look of the way {way} has no error", cure)
        if look and marked and look not in marked:
            what = f"no part has a mark for the look {quoted(look)}"
            looks.fault(at, "look", what, "mark the parts it tells apart, or take the row out")


def _check_kinds(marks: Sheet, looks: Sheet, parts: Sheet) -> None:
    """Note the marks on parts of another kind than their look is for."""
    part_at, look_at = places(parts), places(looks)
    pairs = zip(marks.texts["part"], marks.texts["look"], strict=True)
    for at, (part, look) in enumerate(pairs):
        if part not in part_at or look not in look_at:
            continue
        kind = parts.texts["kind"][part_at[part]]
        wanted = looks.texts["kind"][look_at[look]]
        if kind and wanted and kind != wanted:
            what = f"the look {quoted(look)} is at a {wanted}, and {quoted(part)} is a {kind}"
            marks.fault(at, "look", what, f"take the row out, or name a {wanted}")


def _measured(looks: Sheet) -> set[str]:
    columns = (looks.texts["look"], looks.texts["way"])
    return {look for look, way in zip(*columns, strict=True) if way == Way.MEASURE}


def _shown(marks: Sheet) -> dict[str, dict[str, None]]:
    """Return the values that each look shows, in the order of the table."""
    shown: dict[str, dict[str, None]] = {}
    for look, value in zip(marks.texts["look"], marks.texts["value"], strict=True):
        shown.setdefault(look, {})[value] = None
    return shown


def _check_lengths(marks: Sheet, measured: set[str]) -> None:
    """Note the values of a measured look that are no length."""
    for at, (look, value) in enumerate(zip(marks.texts["look"], marks.texts["value"], strict=True)):
        if look in measured and value:
            try:
                parse_length(value)
            except (CellError, DimensionError) as error:
                marks.fault(at, "value", error.what, error.cure)


def _check_confusions(marks: Sheet, measured: set[str]) -> None:
    """Note what cannot be taken for something else."""
    shown = _shown(marks)
    columns = (marks.texts[name] for name in ("look", "value", "confused_with", "confused"))
    for at, (look, value, other, often) in enumerate(zip(*columns, strict=True)):
        if often and not other:
            what = f"callers take it {often} for something else, and nobody says for what"
            marks.fault(at, "confused_with", what, "name the other value, or clear both cells")
        elif other and look in measured:
            cure = "clear the cell; the look's error says how far callers are off"
            marks.fault(at, "confused_with", "a length is not confused with one value", cure)
        elif other and other == value:
            cure = "name another value, or clear the cell"
            marks.fault(at, "confused_with", f"{quoted(value)} is the value itself", cure)
        elif other and other not in shown[look]:
            what = f"no part shows {quoted(other)} by the look {quoted(look)}"
            cure = f"{meant(other, shown[look])}write a value that another part shows"
            marks.fault(at, "confused_with", what, cure)


def check_marks(sheets: Sheets) -> None:
    """Note what cannot be about what tells lamps apart.

    Parameters
    ----------
    sheets : dict of str to Sheet
        The book; faults are added to the sheets ``looks``, ``marks`` and ``swaps``.
    """
    looks, marks, swaps = sheets["looks"], sheets["marks"], sheets["swaps"]
    measured = _measured(looks)
    _check_looks(looks, filled(marks, "look"))
    _check_kinds(marks, looks, sheets["parts"])
    _check_lengths(marks, measured)
    _check_confusions(marks, measured)
    check_shares(swaps, ("share",), below=True)
    check_sources(swaps, sheets["sources"])
