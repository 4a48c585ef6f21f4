"""Revisions of the fit book: which hold, which held, and what a new one would change."""

from collections.abc import Sequence
from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.check_book import check_book
from wickwright.answers.sheet.desk_store import Revision, Unknown
from wickwright.answers.sheet.one_line import one_line
from wickwright.catalogue.compare import Change, compare_books
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.desk.frame import render
from wickwright.desk.people_here import Here, Lead, Sent
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import DeskState, state_of
from wickwright.desk.times import Moment, moment

__all__ = ["FaultsPage", "RevisionPage", "RevisionsPage", "router"]

router = APIRouter()
_MOST_CHANGES: Final = 400
_MOST_FAULTS: Final = 500
_LONGEST: Final = 80


@dataclass(frozen=True, slots=True)
class RevisionRow:
    """A revision in the list.

    Attributes
    ----------
    id, name, who, signed, reason : str
        As of :class:`wickwright.answers.sheet.desk_store.Revision`.
    loaded : Moment
        When it came in.
    since : Moment or None
        Since when it holds or held; None where it never did.
    holds : bool
        Whether it is in force now.
    """

    id: str
    name: str
    who: str
    signed: str
    reason: str
    loaded: Moment
    since: Moment | None
    holds: bool


def _row(one: Revision, state: DeskState, holds: Revision | None) -> RevisionRow:
    now = state.clock()
    return RevisionRow(
        id=one.id,
        name=one.name,
        who=one.who,
        signed=one.signed,
        reason=one.reason,
        loaded=moment(one.loaded, now),
        since=moment(one.in_force, now) if one.in_force else None,
        holds=holds is not None and holds.id == one.id,
    )


@dataclass(frozen=True, slots=True)
class RevisionsPage:
    """All revisions, the newest first.

    Attributes
    ----------
    rows : tuple of RevisionRow
        Them.
    leads : bool
        Whether the one who looks may load another.
    """

    rows: tuple[RevisionRow, ...]
    leads: bool


@router.get("/book/revisions")
def revisions(request: Request, visitor: Here) -> Response:
    """Show all revisions."""
    state = state_of(request)
    holds = state.store.books.in_force()
    rows = tuple(_row(one, state, holds) for one in state.store.books.revisions())
    return render(request, "revisions.html", RevisionsPage(rows, visitor.leads))


# -- loading -------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FaultsPage:
    """Why a book was not loaded.

    Attributes
    ----------
    name : str
        Of its file.
    faults : tuple of Fault
        Every one, or as many as a page holds.
    count : int
        How many there are [-].
    """

    name: str
    faults: tuple[Fault, ...]
    count: int


@router.post("/book/revisions")
def load(request: Request, visitor: Lead, sent: Sent) -> Response:
    """Load a revision; it is kept and compared, and not in force yet."""
    state, file = state_of(request), sent.files.get("book")
    body, name = (file.file.read(), file.filename or "") if file else (b"", "")
    tables = _tables(state, name, body)
    faults = tuple(one for one in tables if isinstance(one, Fault))
    if faults:
        page = FaultsPage(name[:_LONGEST], faults[:_MOST_FAULTS], len(faults))
        return render(request, "faults.html", page, HTTPStatus.UNPROCESSABLE_ENTITY)
    raw = [one for one in tables if isinstance(one, RawTable)]
    called = sent.line("name")[:_LONGEST] or one_line(name)[:_LONGEST] or "no name"
    revision = state.store.books.add(raw, called, visitor.person.name, state.clock())
    return RedirectResponse(f"/book/revisions/{revision.id}?done=loaded", HTTPStatus.SEE_OTHER)


def _tables(state: DeskState, name: str, body: bytes) -> Sequence[RawTable | Fault]:
    """Return the tables of a book without faults, or its faults."""
    tables = state.read_upload(name, body)
    raw = [one for one in tables if isinstance(one, RawTable)]
    if len(raw) < len(tables):
        return tables
    found = read_book(raw)
    return found if isinstance(found, tuple) else tables


# -- one revision --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class RevisionPage:
    """A revision, and what it changes.

    Attributes
    ----------
    row : RevisionRow
        It.
    lamps, parts : int
        How many it holds [-].
    changes : tuple of Change
        Against the one in force; blank where it is that one.
    count : int
        How many changes there are [-].
    doubts : tuple of Fault
        What may be wrong with it; looked for before it is in force.
    leads : bool
        Whether the one who looks may put it in force.
    """

    row: RevisionRow
    lamps: int
    parts: int
    changes: tuple[Change, ...]
    count: int
    doubts: tuple[Fault, ...]
    leads: bool


@router.get("/book/revisions/{revision}")
def revision(request: Request, visitor: Here, revision: str) -> Response:
    """Show a revision, and what it would change or has changed since."""
    state = state_of(request)
    opened = state.books.of(revision)
    if opened is None:
        raise _no_revision()
    holds = state.store.books.in_force()
    row = _row(opened.revision, state, holds)
    now = state.books.in_force().book if holds else Book({}, {}, {}, {}, {})
    changes = () if row.holds else compare_books(now, opened.book)
    fresh = visitor.leads and row.since is None
    page = RevisionPage(
        row=row,
        lamps=len(opened.book.lamps),
        parts=len(opened.book.parts),
        changes=changes[:_MOST_CHANGES],
        count=len(changes),
        doubts=_doubts(state, opened.book, row.id) if fresh else (),
        leads=visitor.leads,
    )
    return render(request, "revision.html", page)


def _doubts(state: DeskState, book: Book, revision: str) -> tuple[Fault, ...]:
    tables = state.store.books.tables(revision) or ()
    opened = state.books.of(revision)
    return check_book(book, tables, opened.compiled.settings) if opened else ()


@router.post("/book/revisions/{revision}/in-force")
def put_in_force(request: Request, visitor: Lead, revision: str, sent: Sent) -> Response:
    """Put a revision in force, under a name and a reason."""
    state, reason = state_of(request), sent.text("reason")
    if not reason:
        raise RefusedError(
            400,
            "Not in force yet",
            "No reason was given, and somebody will ask for it.",
            "Go back and write why it takes effect.",
        )
    opened = state.books.of(revision)
    if opened is None:
        raise _no_revision()
    done = state.store.books.put_in_force(revision, visitor.person.name, reason, state.clock())
    if isinstance(done, Unknown):
        raise _no_revision()
    return RedirectResponse("/book/revisions?done=in-force", HTTPStatus.SEE_OTHER)


def _no_revision() -> RefusedError:
    return RefusedError(
        404,
        "There is no such revision",
        "The store holds no fit book under that number.",
        "Look at the list of revisions.",
    )
