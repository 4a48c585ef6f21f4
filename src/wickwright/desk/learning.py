"""What closed calls would change in the fit book: shown, and loaded only under name and reason."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.sheet.closed_calls import closed_cases
from wickwright.catalogue.writing import book_tables
from wickwright.cause.closed import ClosedCase, written_closed
from wickwright.cause.learning import Learned, learned_from
from wickwright.cause.signing import UnsignedError, signed
from wickwright.desk.frame import render
from wickwright.desk.people_here import Lead, Sent
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import DeskState, state_of

__all__ = ["LearningPage", "router"]

router = APIRouter()
_SHOWN: Final = 40


@dataclass(frozen=True, slots=True)
class Moved:
    """A number that would change."""

    where: str
    old: str
    new: str
    cases: str
    large: bool


@dataclass(frozen=True, slots=True)
class LearningPage:
    """What closed calls teach.

    Attributes
    ----------
    revision : str
        The fit book in force, which would learn.
    closed, usable : int
        Closed calls, and those of them that are about something wrong with a known lamp [-].
    confirmed : tuple of (str, int)
        Cases by how they were confirmed.
    one_sided : bool
        Whether all that is known was found over the telephone.
    again : int
        Cases that may stand in the book's numbers already [-].
    scores : tuple of (str, str, str)
        Name of a score, as it is, as learned; on cases not learned from.
    moved : tuple of Moved
        What would change, the largest first.
    more : int
        Changes that are not shown [-].
    """

    revision: str
    closed: int
    usable: int
    confirmed: tuple[tuple[str, int], ...]
    one_sided: bool
    again: int
    scores: tuple[tuple[str, str, str], ...]
    moved: tuple[Moved, ...]
    more: int


@router.get("/learning")
def learning(request: Request, visitor: Lead) -> Response:
    """Show what closed calls would change."""
    del visitor
    state = state_of(request)
    calls, cases = _cases(state)
    learned = _learned(state, cases)
    page = LearningPage(
        revision=state.books.in_force().revision.id,
        closed=calls,
        usable=len(cases),
        confirmed=tuple((str(kind), count) for kind, count in learned.confirmed.items()),
        one_sided=learned.one_sided,
        again=learned.again,
        scores=tuple(_scores(learned)),
        moved=tuple(_moved(learned))[:_SHOWN],
        more=max(len(learned.changes) - _SHOWN, 0),
    )
    return render(request, "learning.html", page)


@router.get("/learning/cases.jsonl")
def cases_file(request: Request, visitor: Lead) -> Response:
    """Give the cases as a file ``wickwright learn`` reads."""
    del visitor
    _, cases = _cases(state_of(request))
    text = "".join(f"{written_closed(one)}\n" for one in cases)
    headers = {"Content-Disposition": 'attachment; filename="cases.jsonl"'}
    return Response(text, media_type="application/jsonl", headers=headers)


@router.post("/learning")
def load(request: Request, visitor: Lead, sent: Sent) -> Response:
    """Load what was learned as a new revision, which is put in force like any other."""
    state, now = state_of(request), state_of(request).clock()
    opened = state.books.in_force()
    learned = _learned(state, _cases(state)[1])
    try:
        book = signed(opened.book, learned, visitor.person.name, sent.text("reason"), now.date())
    except UnsignedError as error:
        raise RefusedError(
            400, "It is not signed", str(error), "Go back and write why it shall be learned.",
        ) from error  # fmt: skip
    name = f"learned from closed calls: {sent.line('reason')}"[:120]
    added = state.store.books.add(book_tables(book), name, visitor.person.name, now)
    return RedirectResponse(f"/book/revisions/{added.id}?done=loaded", HTTPStatus.SEE_OTHER)


def _cases(state: DeskState) -> tuple[int, tuple[ClosedCase, ...]]:
    calls = state.store.calls.closed()
    memory = state.books.in_force().memory(state.settings.units)
    return len(calls), closed_cases(memory, calls)


def _learned(state: DeskState, cases: tuple[ClosedCase, ...]) -> Learned:
    return learned_from(state.books.in_force().book, cases, state.clock().date())


def _moved(learned: Learned) -> list[Moved]:
    return [
        Moved(
            f"{one.table}: {one.key} {one.column}",
            f"{one.old:.1%}",
            f"{one.new:.1%}",
            f"{one.cases:.0f}",
            one.large,
        )
        for one in learned.changes
    ]


def _scores(learned: Learned) -> list[tuple[str, str, str]]:
    before, after = learned.before, learned.after
    if before is None or after is None:
        return []
    return [
        ("log score", f"{before.log:.3f}", f"{after.log:.3f}"),
        ("Brier score", f"{before.brier:.3f}", f"{after.brier:.3f}"),
    ]
