"""What must hold of the measures of how a part burns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.cells import CellError
from wickwright.catalogue.links import places
from wickwright.catalogue.measures import MEASURES, parse_measure, parse_spread
from wickwright.catalogue.spelling import meant, quoted

if TYPE_CHECKING:
    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["ASSUMPTION", "check_flames", "check_sources"]

ASSUMPTION = "assumption"
"""What stands in place of a source where a figure is assumed."""


def _check_values(sheet: Sheet) -> None:
    """Note the values and spreads that cannot be read."""
    texts = (sheet.texts[name] for name in ("property", "value", "spread"))
    for at, (name, value, spread) in enumerate(zip(*texts, strict=True)):
        if name not in MEASURES or not value:
            continue
        try:
            read = parse_measure(name, value)
        except CellError as error:
            sheet.fault(at, "value", error.what, error.cure)
            continue
        if spread:
            _check_spread(sheet, at, name, spread, read)


def _check_spread(sheet: Sheet, at: int, name: str, text: str, value: float) -> None:
    try:
        parse_spread(name, text, value)
    except CellError as error:
        sheet.fault(at, "spread", error.what, error.cure)


def _check_kinds(sheet: Sheet, parts: Sheet) -> None:
    """Note the properties of a part that is of another kind."""
    where, kinds = places(parts), parts.texts["kind"]
    texts = (sheet.texts[name] for name in ("part", "property"))
    for at, (part, name) in enumerate(zip(*texts, strict=True)):
        kind = kinds[where[part]] if part in where else ""
        if kind and name in MEASURES and MEASURES[name].kind != kind:
            what = f"a {kind} has no {name}"
            cure = f"take the row out, or name the part: only a {MEASURES[name].kind} has one"
            sheet.fault(at, "property", what, cure)


def check_sources(sheet: Sheet, sources: Sheet) -> None:
    """Note the sources that are neither in the book nor an assumption.

    Parameters
    ----------
    sheet : Sheet
        A table with a column ``source``; faults are added to it.
    sources : Sheet
        The table of sources.
    """
    keys = places(sources)
    for at, key in enumerate(sheet.texts["source"] if sources.known else ()):
        if key and key != ASSUMPTION and key not in keys:
            cure = (
                f"{meant(key, (*keys, ASSUMPTION))}write the key of a row of the table sources, "
                f"add the row, or write {ASSUMPTION}"
            )
            sheet.fault(at, "source", f"there is no source {quoted(key)}", cure)


def _check_feet(sheet: Sheet, parts: Sheet) -> None:
    """Note the chimneys that are all foot."""
    where, heights = places(parts), parts.sizes["height"]
    texts = (sheet.texts[name] for name in ("part", "property", "value"))
    for at, (part, name, value) in enumerate(zip(*texts, strict=True)):
        height = heights[where[part]] if part in where else None
        if name != "foot_length" or height is None:
            continue
        try:
            length = parse_measure(name, value)
        except CellError:
            continue
        if length >= height.low:
            what = f"{quoted(value)} leaves nothing of a chimney {height.text} high"
            sheet.fault(at, "value", what, "write the length of the wide part alone")


def check_flames(sheets: Sheets) -> None:
    """Note what cannot be about how parts burn.

    Parameters
    ----------
    sheets : dict of str to Sheet
        The whole book; faults are added to the table ``flames``.
    """
    sheet = sheets["flames"]
    _check_values(sheet)
    _check_kinds(sheet, sheets["parts"])
    check_sources(sheet, sheets["sources"])
    _check_feet(sheet, sheets["parts"])
