"""The keys of the desk, and the switch that turns single keys off."""

from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from wickwright.desk.frame import render
from wickwright.desk.people_here import Here

__all__ = ["KEYS", "Key", "KeysPage", "router"]

router = APIRouter()


@dataclass(frozen=True, slots=True)
class Key:
    """A key and what it does.

    Attributes
    ----------
    keys : tuple of str
        To be pressed together.
    where : str
        On which pages.
    does : str
        What happens.
    single : bool
        Whether the switch turns it off.
    """

    keys: tuple[str, ...]
    where: str
    does: str
    single: bool = True


KEYS: Final = (
    Key(("Tab",), "everywhere", "to the next field, link or button; with Shift to the one before",
        single=False),
    Key(("/",), "everywhere", "to the box that finds calls, parts and lamps"),
    Key(("1", "to", "9"), "a call sheet", "chooses that answer, where nothing is asked that way; "
        "0, e, f, g and so on stand after the ninth answer"),
    Key(("n",), "a call sheet", "none of the dangers that are not ticked"),
    Key(("d",), "a call sheet", "the caller does not know"),
    Key(("b",), "a call sheet", "takes the last step back"),
    Key(("w",), "a call sheet", "why this is asked"),
    Key(("l",), "a call sheet", "to the field for the lamp"),
    Key(("v", "1 to 9"), "a call sheet", "one after the other: chooses that way at any time"),
    Key(("r",), "a call sheet", "where it is offered: notes that the caller looks first"),
    Key(("o",), "a call sheet", "what goes out: order, letter, fit sheet"),
    Key(("t",), "a call sheet", "the trail"),
    Key(("a",), "a call sheet, its trail", "hands the call over to another desk"),
    Key(("c",), "a call sheet, its trail", "closes the call; a number says how it ended"),
    Key(("p",), "a call sheet, its trail", "attaches a photograph"),
    Key(("s",), "a trail, what goes out", "back to the sheet"),
    Key(("c", "j", "p"), "what goes out", "the order as CSV, as JSON; the fit sheet as PDF"),
    Key(("l", "k"), "what goes out", "to the letter; copies it"),
    Key(("g", "o f l"), "what goes out", "one after the other: order, fit sheet, letter went out"),
    Key(("Esc",), "in a field", "leaves it, so that the keys above act", single=False),
    Key(("Alt", "a letter"), "in a field", "does what the letter does outside it", single=False),
    Key(("any",), "a call sheet", "while it is being kept: waits, and goes to the next question",
        single=False),
    Key(("Enter",), "a field of a call sheet", "keeps it and goes to the question", single=False),
    Key(("Ctrl", "Enter"), "in a large box, on closing", "sends what was typed", single=False),
)  # fmt: skip
"""Keys of every page; :mod:`wickwright.desk.static` acts on them."""


@dataclass(frozen=True, slots=True)
class KeysPage:
    """All keys."""

    keys: tuple[Key, ...]


@router.get("/keys")
def keys(request: Request, visitor: Here) -> Response:
    """Show all keys."""
    del visitor
    return render(request, "keys.html", KeysPage(KEYS))
