"""One's own password."""

from dataclasses import dataclass, replace
from http import HTTPStatus

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.desk.frame import Visitor, render
from wickwright.desk.log_in import start_session, too_often
from wickwright.desk.passwords import LEAST, once, what_is_wrong
from wickwright.desk.people_here import Here, Sent, SentForm
from wickwright.desk.state import DeskState, state_of

__all__ = ["AccountPage", "router"]

router = APIRouter()


@dataclass(frozen=True, slots=True)
class AccountPage:
    """The page on one's own password.

    Attributes
    ----------
    name : str
        Whose.
    first : bool
        Whether a password has still to be chosen.
    least : int
        Letters it has at least [-].
    wrong : str
        What went wrong; blank at first.
    """

    name: str
    first: bool
    least: int
    wrong: str


@router.get("/account")
def account(request: Request, visitor: Here) -> Response:
    """Show the page on one's own password."""
    if state_of(request).settings.single:
        return RedirectResponse("/", HTTPStatus.SEE_OTHER)
    return _page(request, visitor, "")


def _page(request: Request, visitor: Visitor, wrong: str) -> Response:
    person = visitor.person
    page = AccountPage(person.name, once(person.password), LEAST, wrong)
    return render(request, "account.html", page, 400 if wrong else 200)


@router.post("/account")
def change(request: Request, visitor: Here, sent: Sent) -> Response:
    """Change one's own password; every session ends but a new one."""
    state, person = state_of(request), visitor.person
    if state.settings.single:
        return RedirectResponse("/", HTTPStatus.SEE_OTHER)
    too_often(state, person.name)
    wrong = _wrong(state, visitor, sent)
    if wrong:
        return _page(request, visitor, wrong)
    new = replace(person, password=state.passwords.hashed(sent.raw("new")))
    state.store.people.put(new, person.name, state.clock())
    answer = RedirectResponse("/?done=password", HTTPStatus.SEE_OTHER)
    start_session(request, answer, person.name)
    return answer


def _wrong(state: DeskState, visitor: Visitor, sent: SentForm) -> str:
    """Say what stands against a new password; blank where nothing does."""
    person = visitor.person
    if not state.passwords.right(person.password, sent.raw("old")):
        state.store.people.failed(person.name, state.clock())
        return "The present password is another. Nothing was changed."
    if sent.raw("new") != sent.raw("again"):
        return "The new password was typed in two ways. Type it once more."
    if sent.raw("new") == sent.raw("old"):
        return "The new password is the old one. Take another."
    return what_is_wrong(sent.raw("new"), person.name)
