"""The tables a call is taken with: what tells lamps apart, and what goes wrong with them."""

from __future__ import annotations

from wickwright.catalogue.column import Column, Holds, Table

__all__ = ["CALL_TABLES"]

_C, _H = Column, Holds

_RIGHT = "of a hundred callers, how many answer rightly; blank for 92"
_UNSURE = "of a hundred callers, how many do not know; blank for 8"

LOOKS = Table(
    "looks",
    "one thing to see, feel or measure on a lamp with the lamp cold",
    (
        _C("look", _H.KEY, "short name", must=True),
        _C("kind", _H.WORD, "kind of part it is seen on", must=True, of="kinds"),
        _C("question", _H.TEXT, "what the adviser asks", must=True),
        _C("way", _H.WORD, "look, feel or measure", must=True, of="look_ways"),
        _C("minutes", _H.NUMBER, "how long the look takes", must=True),
        _C("right", _H.NUMBER, _RIGHT),
        _C("unsure", _H.NUMBER, _UNSURE),
        _C("error", _H.LENGTH, "measured: a caller's standard error; blank for 3 mm"),
        _C("note", _H.TEXT, "how to look, and what misleads"),
    ),
    must=False,
)
MARKS = Table(
    "marks",
    "what one look shows on one part",
    (
        _C("part", _H.LINK, "the part", must=True, of="parts"),
        _C("look", _H.LINK, "the look", must=True, of="looks"),
        _C("value", _H.TEXT, "what is seen on this part; measured: a length", must=True),
        _C("confused_with", _H.TEXT, "another value of the look that callers take it for"),
        _C("confused", _H.WORD, "how often they do", of="often"),
    ),
    must=False,
)
SWAPS = Table(
    "swaps",
    "how often a part of a kind is not the one the lamp was sold with",
    (
        _C("kind", _H.WORD, "kind of part", must=True, of="kinds"),
        _C("share", _H.NUMBER, "of a hundred lamps that callers have", must=True),
        _C("source", _H.TEXT, "a key of the table sources, or assumption", must=True),
        _C("note", _H.TEXT, "why"),
    ),
    must=False,
)
SIGNS = Table(
    "signs",
    "one thing that is so or not so with a lamp that burns badly",
    (
        _C("sign", _H.KEY, "short name", must=True),
        _C("question", _H.TEXT, "what the adviser asks; answered by yes or no", must=True),
        _C("says", _H.TEXT, "the sign in words, such as: the flame flickers", must=True),
        _C("way", _H.WORD, "ask, look, feel, measure or test", must=True, of="sign_ways"),
        _C("minutes", _H.NUMBER, "how long it takes", must=True),
        _C("state", _H.WORD, "what the lamp must be to see it", must=True, of="states"),
        _C("needs", _H.WORDS, "kinds of part the lamp must have for it", of="kinds"),
        _C("yes_right", _H.NUMBER, "of a hundred lamps with the sign, how often yes is said"),
        _C("no_right", _H.NUMBER, "of a hundred lamps without it, how often no is said"),
        _C("unsure", _H.NUMBER, _UNSURE),
        _C(
            "anyway",
            _H.NUMBER,
            "of a hundred lamps without a listed cause, how many show it; chance of no sign: "
            "(1 - anyway) times the product of (1 - strength) over the causes of the lamp; where "
            "the sign is the complaint itself, it is scaled down to lamps at large as weights are",
        ),
        _C("danger", _H.WORD, "the danger a yes means; it stops the call", of="dangers"),
        _C("why", _H.TEXT, "why it is asked, in words for the caller", must=True),
        _C("source", _H.TEXT, "a key of the bibliography, or practice", must=True),
        _C(
            "words",
            _H.TEXT,
            "what callers say where it is so, separated by ; where it is a danger, whoever says "
            "them is asked after it before anything else, beside the words the program knows",
        ),
    ),
    must=False,
)
COMPLAINTS = Table(
    "complaints",
    "one thing callers complain of",
    (
        _C("complaint", _H.KEY, "short name", must=True),
        _C("says", _H.TEXT, "the complaint in plain words", must=True),
        _C("sign", _H.LINK, "the sign it is", must=True, of="signs"),
        _C("words", _H.TEXT, "other words callers use, separated by ;"),
    ),
    must=False,
)
CAUSES = Table(
    "causes",
    "one thing that can be wrong",
    (
        _C("cause", _H.KEY, "short name", must=True),
        _C("says", _H.TEXT, "the cause in plain words", must=True),
        _C(
            "weight",
            _H.NUMBER,
            "of a hundred such lamps that callers complain of, how many have it; the causes of a "
            "lamp are independent of each other",
            must=True,
        ),
        _C("needs", _H.WORDS, "kinds of part the lamp must have for it", of="kinds"),
        _C("families", _H.LINKS, "families it can happen to; blank for all", of="families"),
        _C("computed", _H.WORD, "what the program can work out about it", of="computations"),
        _C("why", _H.TEXT, "what happens in the lamp, for the caller", must=True),
        _C("source", _H.TEXT, "a key of the bibliography, or practice", must=True),
    ),
    must=False,
)
SHOWS = Table(
    "shows",
    "how strongly a cause shows itself by a sign",
    (
        _C("cause", _H.LINK, "the cause", must=True, of="causes"),
        _C("sign", _H.LINK, "the sign", must=True, of="signs"),
        _C(
            "strength",
            _H.TEXT,
            "strong, medium or weak; or of a hundred lamps with the cause alone, how many show it",
            must=True,
        ),
        _C("source", _H.TEXT, "a key of the bibliography, or practice", must=True),
    ),
    must=False,
)
REMEDIES = Table(
    "remedies",
    "one thing to do about a cause",
    (
        _C("remedy", _H.KEY, "short name", must=True),
        _C("says", _H.TEXT, "what the caller is told to do", must=True),
        _C("minutes", _H.NUMBER, "how long it takes, without cooling", must=True),
        _C("state", _H.WORD, "what the lamp must be to do it", must=True, of="states"),
        _C("wish", _H.TEXT, "the wish whose route says which parts to send"),
        _C("extra", _H.NUMBER, "minutes added for its risk; set by the maker, never learned"),
        _C("caution", _H.TEXT, "what to be careful of"),
        _C("source", _H.TEXT, "a key of the bibliography, or practice", must=True),
    ),
    must=False,
)
CURES = Table(
    "cures",
    "a cause that a remedy cures",
    (
        _C("remedy", _H.LINK, "the remedy", must=True, of="remedies"),
        _C("cause", _H.LINK, "the cause", must=True, of="causes"),
        _C("sure", _H.NUMBER, "of a hundred tries, how many cure it; blank for 95"),
    ),
    must=False,
)

CALL_TABLES: tuple[Table, ...] = (
    LOOKS,
    MARKS,
    SWAPS,
    SIGNS,
    COMPLAINTS,
    CAUSES,
    SHOWS,
    REMEDIES,
    CURES,
)
"""The tables of a call, in the order of the workbook's sheets."""
