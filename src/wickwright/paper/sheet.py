"""A sheet of instructions as PDF: one page of A4 where it can be, tagged, the same every time."""

from __future__ import annotations

import json
import re
from dataclasses import asdict
from importlib.resources import files
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from wickwright.paper.records import SheetPage

__all__ = ["SheetError", "sheet_pdf"]

_TEMPLATE: Final = "sheet.typ"
_LETTERS: Final = (
    re.compile(r"[\x00-\x1f\x7f-\x9f]"),
    re.compile(r"[^ -~\u00a0-\u052f\u2010-\u205e\u20ac\u2212\u2190-\u2193]"),
    re.compile(r"[^ -~\u00a0-\u00ff\u2013\u2014\u2018\u2019\u201c\u201d\u2026\u2212]"),
)
"""What is written as a question mark, tried in turn until the type has all letters: signs of
control; all but Latin, Greek and Cyrillic; all but the Latin of western Europe."""


class SheetError(ValueError):
    """A sheet that cannot be set; the message says why."""


def sheet_pdf(page: SheetPage, drawing_svg: str = "") -> bytes:
    """Set a sheet of instructions.

    Parameters
    ----------
    page : SheetPage
        What stands on it. No text of it is taken for markup.
    drawing_svg : str
        A drawing; blank leaves it out.

    Returns
    -------
    bytes
        A PDF file of A4 pages after PDF/UA-1, tagged for whoever hears it, without any date, so
        that the same sheet is the same file. A letter that the type has not got is a question
        mark.

    Raises
    ------
    SheetError
        When the drawing is no SVG.
    """
    import typst  # noqa: PLC0415 - loaded only when a sheet is asked for

    content, drawing = json.dumps(asdict(page), ensure_ascii=False), drawing_svg
    error: Exception | None = None
    for unknown in _LETTERS:
        content, drawing = _written(content, unknown), unknown.sub(_instead, drawing)
        try:
            return _set(content, drawing)
        except typst.TypstError as refused:
            error = refused
    msg = f"the sheet cannot be set: {error}. Is the drawing an SVG picture?"
    raise SheetError(msg) from error


def _written(content: str, unknown: re.Pattern[str]) -> str:
    """Replace letters in every text of a page, but not in the JSON around it."""
    return json.dumps(_replaced(json.loads(content), unknown), ensure_ascii=False)


def _replaced(value: object, unknown: re.Pattern[str]) -> object:
    match value:
        case str():
            return unknown.sub(_instead, value)
        case list():
            return [_replaced(one, unknown) for one in value]
        case dict():
            return {key: _replaced(one, unknown) for key, one in value.items()}
        case _:
            return value


def _instead(found: re.Match[str]) -> str:
    return " " if found.group().isspace() else "?"


def _set(content: str, drawing: str) -> bytes:
    import typst  # noqa: PLC0415 - loaded only when a sheet is asked for

    own = files("font_source_sans_pro") / "files"
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[str(own)])
    return typst.compile(
        (files(__package__) / _TEMPLATE).read_bytes(),
        format="pdf",
        font_paths=fonts,
        sys_inputs={"page": content, "drawing": drawing},
        pdf_standards=["ua-1"],
    )
