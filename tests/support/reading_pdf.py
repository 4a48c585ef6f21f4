"""A PDF read back: its words, its pages, and how it is tagged."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from pypdf import PdfReader
from pypdf.generic import ArrayObject, DictionaryObject

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pypdf.generic import PdfObject

__all__ = ["is_tagged", "pages_of", "spoken_for_drawings", "words_of"]


def pages_of(pdf: bytes) -> int:
    """Return how many pages there are."""
    return len(PdfReader(io.BytesIO(pdf)).pages)


def words_of(pdf: bytes) -> str:
    """Return all words, with one space between them."""
    pages = PdfReader(io.BytesIO(pdf)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def is_tagged(pdf: bytes) -> bool:
    """Tell whether the file says that it is tagged and in English."""
    root = PdfReader(io.BytesIO(pdf)).root_object
    marked = root["/MarkInfo"].get_object()
    assert isinstance(marked, DictionaryObject)
    return bool(marked["/Marked"]) and str(root["/Lang"]) == "en" and "/StructTreeRoot" in root


def spoken_for_drawings(pdf: bytes) -> list[str]:
    """Return what is said of each picture to whoever does not see it."""
    return [*_alternatives(PdfReader(io.BytesIO(pdf)).root_object["/StructTreeRoot"])]


def _alternatives(it: PdfObject | None) -> Iterator[str]:
    it = it.get_object() if it is not None else None
    if isinstance(it, ArrayObject):
        for one in it:
            yield from _alternatives(one)
    elif isinstance(it, DictionaryObject):
        if "/Alt" in it:
            yield str(it["/Alt"])
        if "/K" in it:
            yield from _alternatives(it.raw_get("/K"))
