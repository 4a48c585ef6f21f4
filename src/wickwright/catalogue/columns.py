"""The tables of a fit book and a note on each column.

This is the one description from which the templates, the reader, the writer and
``docs/fit-book.md`` are made.
"""

from __future__ import annotations

from wickwright.catalogue.call_columns import CALL_TABLES
from wickwright.catalogue.column import Column, Holds, Table

__all__ = ["TABLES", "Column", "Holds", "Table"]

_C, _H = Column, Holds

ABOUT = Table(
    "about",
    "one fact about the book",
    (
        _C("key", _H.KEY, "maker, edition, currency", must=True),
        _C("value", _H.TEXT, "what it is", must=True),
    ),
    must=False,
)
REVISIONS = Table(
    "revisions",
    "one change of the book's numbers that somebody answers for",
    (
        _C("date", _H.DAY, "the day it was signed", must=True),
        _C("name", _H.TEXT, "who answers for it", must=True),
        _C("reason", _H.TEXT, "why it was made", must=True),
        _C("what", _H.TEXT, "what was changed, and how well it foretold"),
    ),
    must=False,
)
FAMILIES = Table(
    "families",
    "one family of lamps",
    (
        _C("family", _H.KEY, "short name of the family", must=True),
        _C("name", _H.TEXT, "the name in full", must=True),
        _C("note", _H.TEXT, "what sets it apart"),
    ),
)
LAMPS = Table(
    "lamps",
    "one model the firm ever sold",
    (
        _C("lamp", _H.KEY, "model number", must=True),
        _C("name", _H.TEXT, "model name", must=True),
        _C("family", _H.LINK, "family it belongs to", must=True, of="families"),
        _C("form", _H.WORD, "how it stands or hangs", must=True, of="forms"),
        _C("service", _H.WORD, "oil or electric, as sold", must=True, of="services"),
        _C("from", _H.YEAR, "first year made"),
        _C("to", _H.YEAR, "last year made; blank while it still is"),
        _C(
            "needs",
            _H.WORDS,
            "kinds of part it is not complete without, beyond what its ports require",
            of="kinds",
        ),
        _C(
            "as_sold",
            _H.LINKS,
            "the parts it left the works with, base first",
            must=True,
            of="parts",
        ),
        _C("in_use", _H.COUNT, "a rough count of lamps still in use; blank where nobody knows"),
        _C("note", _H.TEXT, "anything an adviser should know"),
    ),
)
PARTS = Table(
    "parts",
    "one part the firm sells or sold",
    (
        _C("part", _H.KEY, "part number", must=True),
        _C("name", _H.TEXT, "plain name", must=True),
        _C("kind", _H.WORD, "what it is", must=True, of="kinds"),
        _C("from", _H.YEAR, "first year made"),
        _C("to", _H.YEAR, "last year made; blank while it still is"),
        _C("status", _H.WORD, "whether it can be had", must=True, of="statuses"),
        _C("successor", _H.LINK, "the part that replaced it", of="parts"),
        _C(
            "via",
            _H.LINK,
            "the converter needed where the joint changed with the successor",
            of="parts",
        ),
        _C("price", _H.MONEY, "price of one; blank where none is known"),
        _C("stock", _H.COUNT, "pieces on the shelf; blank where it is not counted"),
        _C("mass", _H.NUMBER, "grams"),
        _C("height", _H.LENGTH, "from its own foot to its top"),
        _C("centre", _H.LEVEL, "centre of mass above its own foot"),
        _C("material", _H.WORD, "what it is made of", of="materials"),
        _C(
            "heat_rating",
            _H.NUMBER,
            "watts of heat it stands in its place; blank where the maker states none",
        ),
        _C("service", _H.WORD, "oil or electric; blank when both", of="services"),
        _C("heat", _H.NUMBER, "watts a burner gives off at full flame, or a bulb's watts"),
        _C(
            "least_chimney",
            _H.LENGTH,
            "burners: least chimney height at sea level it draws well with",
        ),
        _C(
            "light",
            _H.SIGNED,
            "light points it adds: 10 are about 10 % more light; blank counts as 0",
        ),
        _C("style", _H.WORD, "period or modern; blank when it suits both", of="styles"),
        _C("support", _H.WORD, "bases: round, feet, hung or fixed", of="footings"),
        _C("feet", _H.COUNT, "bases on feet: how many, at least 3"),
        _C("radius", _H.LENGTH, "bases: radius of the rim or of the circle through the feet"),
        _C("fuel_volume", _H.NUMBER, "fonts: millilitres when full"),
        _C("fuel_floor", _H.LEVEL, "fonts: bottom of the fuel above the font's own foot"),
        _C("fuel_depth", _H.LENGTH, "fonts: from the bottom to the full line"),
        _C("note", _H.TEXT, "anything an adviser should know"),
        _C("source", _H.LINK, "where the figures come from", of="sources"),
    ),
)
PORTS = Table(
    "ports",
    "one half of a joint",
    (
        _C("part", _H.LINK, "the part it is on", must=True, of="parts"),
        _C("port", _H.TEXT, "name of the port, unique within the part", must=True),
        _C(
            "side",
            _H.WORD,
            "carries (something stands on it) or stands (it stands on something)",
            must=True,
            of="sides",
        ),
        _C("joint", _H.WORD, "which joint", must=True, of="joints"),
        _C("takes", _H.WORDS, "carrying side: kinds of part it accepts", of="kinds"),
        _C("need", _H.WORD, "carrying side: required, optional, or care for tools", of="needs"),
        _C("height", _H.LEVEL, "joint plane above the part's own foot"),
        _C("label", _H.TEXT, "the maker's size label; compared where a dimension is unknown"),
        _C("diameter", _H.LENGTH, "the fitting diameter; blank where unknown"),
        _C("capture", _H.LENGTH, "spring fingers: the foot diameters they take up, as a range"),
        _C("pitch", _H.TEXT, "threads: 14 tpi or 1.814 mm"),
        _C("reach", _H.LENGTH, "length of engagement, of a wick's tube or of a mantle's post"),
        _C("form", _H.TEXT, "threads: un, round or tube; arms: the number of arms"),
        _C("hand", _H.WORD, "threads: right or left", of="hands"),
        _C("lugs", _H.COUNT, "quarter-turn: number of lugs"),
        _C("angle", _H.NUMBER, "quarter-turn: degrees from entry to lock"),
        _C("cap", _H.TEXT, "lampholders and bulbs: designation such as E26"),
        _C("limit", _H.NUMBER, "lampholders: most watts; bulbs: their watts"),
        _C("note", _H.TEXT, "how it was measured"),
    ),
)
INCLUDES = Table(
    "includes",
    "one part that comes with another, in place",
    (
        _C("part", _H.LINK, "the part bought", must=True, of="parts"),
        _C("includes", _H.LINK, "the part that comes with it", must=True, of="parts"),
    ),
    must=False,
)
FLAMES = Table(
    "flames",
    "one measure of how a burner, mantle or chimney burns",
    (
        _C("part", _H.LINK, "the part it was measured on", must=True, of="parts"),
        _C("property", _H.WORD, "what was measured", must=True, of="measures"),
        _C("value", _H.TEXT, "the value with its unit, such as 62 g/h", must=True),
        _C(
            "spread",
            _H.TEXT,
            "one standard uncertainty, in the same unit or in % of the value (of a share: in % "
            "of the whole)",
            must=True,
        ),
        _C("source", _H.TEXT, "a key of the table sources, or assumption", must=True),
        _C("note", _H.TEXT, "how it was measured, or why it is assumed"),
    ),
    must=False,
)
WISHES = Table(
    "wishes",
    "one thing a wish asks for; rows of one wish stand together",
    (
        _C("wish", _H.TEXT, "short name of the wish, repeated on each of its rows", must=True),
        _C("title", _H.TEXT, "the wish in words; on its first row"),
        _C(
            "ask",
            _H.WORD,
            "renew, present, absent, only, never, brighter or service",
            must=True,
            of="asks",
        ),
        _C("kind", _H.WORD, "kind of part; blank when it speaks of every part", of="kinds"),
        _C("field", _H.WORD, "only, never: the column of the part that is tested", of="fields"),
        _C("test", _H.WORD, "only, never: is, in, at least or at most", of="tests"),
        _C(
            "value", _H.TEXT, "what it is tested against; @from, @to and @joint mean the lamp's own"
        ),
        _C("says", _H.TEXT, "the ask in words an adviser can read out", must=True),
        _C("words", _H.TEXT, "words callers use for the wish, separated by ; - on its first row"),
    ),
    must=False,
)
SOURCES = Table(
    "sources",
    "where figures come from",
    (
        _C("source", _H.KEY, "short key", must=True),
        _C("title", _H.TEXT, "drawing, leaflet or gauge", must=True),
    ),
    must=False,
)

TABLES: dict[str, Table] = {
    table.name: table
    for table in (
        ABOUT,
        REVISIONS,
        FAMILIES,
        LAMPS,
        PARTS,
        PORTS,
        INCLUDES,
        FLAMES,
        WISHES,
        *CALL_TABLES,
        SOURCES,
    )
}
"""Every table of a fit book, in the order of the workbook's sheets."""
