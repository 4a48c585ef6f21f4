"""The revision of the fit book a page is about: the one in force, or one its address names."""

from dataclasses import dataclass
from typing import TypeVar

from starlette.requests import Request

from wickwright.catalogue.records import Lamp, Part
from wickwright.catalogue.spelling import meant, spelled
from wickwright.desk.open_books import OpenBook
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import state_of
from wickwright.terms.units import Units

__all__ = ["BookHere", "book_here", "one_of"]

Record = TypeVar("Record", Lamp, Part)


@dataclass(frozen=True, slots=True)
class BookHere:
    """The fit book of a page.

    Attributes
    ----------
    opened : OpenBook
        Ready for questions.
    query : str
        What keeps links in an older revision: blank, or ``?revision=...``.
    units : Units
        What to print in.
    """

    opened: OpenBook
    query: str
    units: Units


def book_here(request: Request) -> BookHere:
    """Return the fit book a page is about.

    Parameters
    ----------
    request : Request
        Its address may name a revision.

    Returns
    -------
    BookHere
        The revision in force where it names none.

    Raises
    ------
    RefusedError
        When there is no such revision.
    """
    state, wanted = state_of(request), request.query_params.get("revision", "")
    opened = state.books.of(wanted) if wanted else state.books.in_force()
    if opened is None:
        raise RefusedError(
            404,
            "There is no such revision",
            "The store holds no fit book under that number.",
            "Look at the list of revisions.",
        )
    query = f"?revision={opened.revision.id}" if wanted else ""
    return BookHere(opened, query, opened.units(state.settings.units))


def one_of(records: dict[str, Record], name: str, what: str) -> Record:
    """Return a record by its number, capitals and kinds of dash disregarded.

    Raises
    ------
    RefusedError
        When there is none.
    """
    found = spelled(name, records)
    if not found:
        near = meant(name, records).strip()
        raise RefusedError(
            404,
            f"There is no {what} {name[:40]} in this fit book",
            near[:1].upper() + near[1:] or "No number is near it.",
            "Look it up by words, or in another revision of the book.",
        )
    return records[found]
