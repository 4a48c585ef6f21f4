"""A small sound book as tables, and short ways to spoil it."""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING

from wickwright.catalogue.columns import TABLES
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.reading import read_book

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickwright.catalogue.records import Book

Cells = dict[str, str]
Draft = dict[str, list[Cells]]
"""Rows by table; the first row of each stands on row 2."""

SOUND: Draft = {
    "about": [{"key": "maker", "value": "Skerry Lampworks"}, {"key": "currency", "value": "SKL"}],
    "families": [{"family": "hearth", "name": "Hearth lamps", "note": "table lamps"}],
    "lamps": [
        {
            "lamp": "L1",
            "name": "Hearth table lamp",
            "family": "hearth",
            "form": "table",
            "service": "oil",
            "from": "1931",
            "to": "1948",
            "needs": "wick chimney",
            "as_sold": "B1 F1 U1",
        }
    ],
    "parts": [
        {
            "part": "B1",
            "name": "Round base",
            "kind": "base",
            "from": "1930",
            "to": "1950",
            "status": "no longer made",
            "mass": "820",
            "height": "2 5/8 in",
            "centre": "31 mm",
            "material": "cast-iron",
            "support": "round",
            "radius": "80 mm",
            "source": "drawing",
        },
        {
            "part": "F1",
            "name": "Glass font",
            "kind": "font",
            "status": "made",
            "price": "48.50",
            "fuel_volume": "900",
            "fuel_floor": "-2 mm",
            "fuel_depth": "60 mm",
        },
        {
            "part": "U1",
            "name": "Burner",
            "kind": "burner",
            "from": "1931",
            "status": "while stocks last",
            "successor": "U2",
            "via": "G1",
            "price": "99",
            "stock": "3",
            "heat": "820",
            "least_chimney": "290 mm",
            "light": "-5",
            "service": "oil",
        },
        {"part": "U2", "name": "Newer burner", "kind": "burner", "status": "made"},
        {"part": "G1", "name": "Gallery", "kind": "gallery", "status": "made"},
        {"part": "C1", "name": "Chimney", "kind": "chimney", "status": "made", "style": "modern"},
        {"part": "W1", "name": "Wick", "kind": "wick", "status": "made"},
    ],
    "ports": [
        {
            "part": "B1",
            "port": "top",
            "side": "carries",
            "joint": "rest",
            "takes": "font",
            "need": "required",
            "height": "66 mm",
            "diameter": "70.2 ± 0.1 mm",
        },
        {
            "part": "F1",
            "port": "collar",
            "side": "carries",
            "joint": "thread",
            "takes": "burner reducer",
            "need": "required",
            "diameter": "44.5 mm",
            "pitch": "14 tpi",
            "form": "un",
            "hand": "right",
        },
        {
            "part": "U1",
            "port": "foot",
            "side": "stands",
            "joint": "thread",
            "height": "-4 mm",
            "diameter": "44.3 mm",
            "pitch": "1.814 mm",
            "form": "un",
            "hand": "right",
            "reach": "8 mm",
            "note": "thread gauge",
        },
        {
            "part": "G1",
            "port": "seat",
            "side": "carries",
            "joint": "plain-foot",
            "takes": "chimney",
            "need": "required",
            "capture": "65.5..67.5 mm",
        },
        {
            "part": "C1",
            "port": "foot",
            "side": "stands",
            "joint": "quarter-turn",
            "lugs": "3",
            "angle": "42.5",
            "label": "Q",
        },
    ],
    "includes": [{"part": "U2", "includes": "W1"}],
    "wishes": [
        {
            "wish": "tall",
            "title": "A tall modern chimney",
            "ask": "renew",
            "kind": "chimney",
            "says": "the chimney is new",
        },
        {
            "wish": "tall",
            "ask": "only",
            "kind": "chimney",
            "field": "height",
            "test": "at least",
            "value": "350 mm",
            "says": "it is tall",
        },
    ],
    "looks": [
        {
            "look": "knob",
            "kind": "burner",
            "question": "What is the knob like?",
            "way": "look",
            "minutes": "0.5",
        },
        {
            "look": "rim",
            "kind": "base",
            "question": "How wide is the foot?",
            "way": "measure",
            "minutes": "2",
            "error": "1/8 in",
        },
    ],
    "marks": [
        {
            "part": "U1",
            "look": "knob",
            "value": "milled",
            "confused_with": "cut",
            "confused": "often",
        },
        {"part": "U2", "look": "knob", "value": "cut"},
        {"part": "B1", "look": "rim", "value": "160 mm"},
    ],
    "swaps": [{"kind": "burner", "share": "15", "source": "drawing", "note": "burners wear out"}],
    "signs": [
        {
            "sign": "dim",
            "question": "Is it darker than it was?",
            "says": "it gives too little light",
            "way": "ask",
            "minutes": "0.3",
            "state": "any",
            "anyway": "4",
            "why": "it tells a starved flame from a wild one",
            "source": "practice",
        },
        {
            "sign": "wet",
            "question": "Is the font wet outside?",
            "says": "the font is wet outside",
            "way": "feel",
            "minutes": "0.5",
            "state": "cold",
            "needs": "font",
            "yes_right": "90",
            "no_right": "97",
            "unsure": "5",
            "danger": "wet-font",
            "why": "fuel outside the font can catch fire",
            "source": "practice",
        },
    ],
    "complaints": [
        {"complaint": "dim", "says": "it is dim", "sign": "dim", "words": "no light; dark; weak"}
    ],
    "causes": [
        {
            "cause": "crust",
            "says": "the wick is crusted",
            "weight": "12",
            "needs": "burner",
            "families": "hearth",
            "computed": "wrong-wick",
            "why": "char holds the fuel back",
            "source": "practice",
        }
    ],
    "shows": [
        {"cause": "crust", "sign": "dim", "strength": "strong", "source": "practice"},
        {"cause": "crust", "sign": "wet", "strength": "3.5", "source": "practice"},
    ],
    "remedies": [
        {
            "remedy": "clean",
            "says": "clean the rim of the wick",
            "minutes": "6",
            "state": "cold",
            "wish": "tall",
            "extra": "2",
            "caution": "only when it is cold",
            "source": "practice",
        }
    ],
    "cures": [{"remedy": "clean", "cause": "crust", "sure": "90"}],
    "sources": [{"source": "drawing", "title": "Works drawing"}],
}


def draft() -> Draft:
    """Return a copy of the sound book to spoil."""
    return deepcopy(SOUND)


def raw(name: str, rows: Sequence[Mapping[str, str]], header: Sequence[str] = ()) -> RawTable:
    """Return rows as a raw table, with every column of that table unless told otherwise."""
    columns = tuple(header) or tuple(column.name for column in TABLES[name].columns)
    cells = (tuple(row.get(column, "") for column in columns) for row in rows)
    return RawTable(name, columns, tuple(enumerate(cells, start=2)))


def tables_of(book: Draft) -> tuple[RawTable, ...]:
    """Return a draft as raw tables."""
    return tuple(raw(name, rows) for name, rows in book.items())


def said(faults: Sequence[Fault]) -> list[str]:
    """Return faults as lines, whole."""
    return [f"{f.table} {f.row} {f.column}: {f.what}; {f.cure}" for f in faults]


def faults_in(tables: Sequence[RawTable]) -> list[str]:
    """Return what is wrong with a book, as lines."""
    read = read_book(tables)
    assert isinstance(read, tuple), "the book was read without a fault"
    return said(read)


def faults_with(table: str, at: int, **cells: str) -> list[str]:
    """Return what is wrong when cells of one row of the sound book are changed.

    A column that is a word of the language, such as ``from``, is written ``from_``.
    """
    spoilt = draft()
    spoilt[table][at].update({name.rstrip("_"): text for name, text in cells.items()})
    return faults_in(tables_of(spoilt))


def faults_after(table: str, **cells: str) -> list[str]:
    """Return what is wrong when one row is added to the sound book."""
    spoilt = draft()
    spoilt[table].append({name.rstrip("_"): text for name, text in cells.items()})
    return faults_in(tables_of(spoilt))


def sound_book() -> Book:
    """Return the sound book, read."""
    read = read_book(tables_of(draft()))
    assert not isinstance(read, tuple), said(read)
    return read
