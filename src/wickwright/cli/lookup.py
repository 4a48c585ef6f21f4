"""Names a user typed, found in the book as it spells them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.which_parts import UnknownNameError
from wickwright.catalogue.spelling import meant, spelled

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book, Lamp, Part

__all__ = ["lamp_or_part", "part_named"]


def part_named(book: Book, name: str) -> Part:
    """Return a part, capitals disregarded.

    Raises
    ------
    UnknownNameError
        When there is none of that name.
    """
    found = lamp_or_part(book, name)
    if found in book.lamps.values():
        msg = f"'{name}' is a lamp: give a part; 'wickwright book show {name}' names its parts"
        raise UnknownNameError(msg)
    return book.parts[found.id]


def lamp_or_part(book: Book, name: str, *, shown: bool = False) -> Lamp | Part:
    """Return a lamp or part, capitals disregarded.

    Parameters
    ----------
    book : Book
        The fit book.
    name : str
        What was typed.
    shown : bool
        Whether looks, signs, complaints, causes and remedies could have been meant as well.

    Raises
    ------
    UnknownNameError
        When there is none of that name.
    """
    everything: dict[str, Lamp | Part] = {**book.parts, **book.lamps}
    if found := spelled(name, everything):
        return everything[found]
    calls = book.calls
    asked = (calls.causes, calls.complaints, calls.signs, calls.remedies, calls.looks)
    others = {key for table in asked for key in table} if shown else set()
    msg = (
        f"there is no lamp or part{', and no cause or sign,' if others else ''} '{name}' in the "
        f"fit book: {meant(name, {*everything, *others})}"
        "'wickwright book list lamps' and 'wickwright book list parts' list them all"
    )
    raise UnknownNameError(msg)
