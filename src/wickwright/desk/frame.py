"""What stands around every page: who is here, where one can go, what has just been done."""

from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final, cast

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse

from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.desk.state import UNNAMED, state_of

__all__ = ["DONE", "Frame", "NavItem", "Visitor", "environment", "render", "visitor_of"]

_HERE: Final = Path(__file__).parent
_STATIC: Final = _HERE / "static"

DONE: Final[dict[str, str]] = {
    "handed-over": "The call lies on the other desk now.",
    "closed": "The call is closed.",
    "reopened": "The call is open again.",
    "erased": "The caller's name, address and words are erased; what the call teaches is kept.",
    "given": "It is kept as it went out.",
    "attached": "The photograph is attached.",
    "in-force": "The revision is in force from now on.",
    "loaded": "The revision is loaded; it is not in force yet.",
    "person": "The change is kept.",
    "token": "The token is ended.",
    "password": "Your password is changed; other sessions of yours have ended.",
    "logged-out": "You are logged out.",
}
"""What a page says after something was done, by the word in its address."""


@dataclass(frozen=True, slots=True)
class Visitor:
    """Who is here.

    Attributes
    ----------
    person : Person
        Who.
    form_key : str
        What each form of theirs carries.
    session : str
        Key of their session; blank where nobody logs in.
    """

    person: Person
    form_key: str
    session: str = ""

    @property
    def letter_name(self) -> str:
        """Their name at the foot of a letter; blank where it is no name, and the maker signs."""
        return "" if self.person.name == UNNAMED else self.person.name

    @property
    def takes_calls(self) -> bool:
        """Whether they may see and change calls."""
        return self.person.role in {Role.ADVISER, Role.LEAD}

    @property
    def leads(self) -> bool:
        """Whether they may put things in force, and look after people."""
        return self.person.role is Role.LEAD


@dataclass(frozen=True, slots=True)
class NavItem:
    """A place to go to.

    Attributes
    ----------
    href, says : str
        Where, and what it is called.
    here : str
        ``page`` where this page is that place, ``true`` where it lies below it; else blank.
    """

    href: str
    says: str
    here: str


@dataclass(frozen=True, slots=True)
class Frame:
    """What a template may use beside its page.

    Attributes
    ----------
    who, role, desk : str
        Of the person here; blank where nobody is.
    nav : tuple of NavItem
        Where they can go.
    form_key : str
        For the hidden field ``form_key`` of every form.
    message : str
        What has just been done.
    single : bool
        Whether this desk is used without logging in.
    path : str
        Of this page.
    """

    who: str
    role: str
    desk: str
    nav: tuple[NavItem, ...]
    form_key: str
    message: str
    single: bool
    path: str


def visitor_of(request: Request) -> Visitor | None:
    """Return who is here, where that is known already."""
    return cast("Visitor | None", getattr(request.state, "visitor", None))


_FOR_CALLS = (("/", "Calls"), ("/calls", "All open calls"))
_FOR_ALL = (("/book", "Fit book"),)
_FOR_LEADS = (("/learning", "Learning"), ("/people", "People"), ("/ledger", "Ledger"))
_LAST = (("/keys", "Keys"),)


def _nav(visitor: Visitor | None, path: str) -> tuple[NavItem, ...]:
    if visitor is None:
        return ()
    items = [
        *(_FOR_CALLS if visitor.takes_calls else ()),
        *_FOR_ALL,
        *(_FOR_LEADS if visitor.leads else ()),
        *_LAST,
    ]
    return tuple(NavItem(href, says, _at(href, path)) for href, says in items)


def _at(href: str, path: str) -> str:
    """Say whether a place is this page, or what it belongs to."""
    if href == path:
        return "page"
    return "true" if href != "/" and path.startswith(f"{href}/") else ""


def _frame(request: Request) -> Frame:
    visitor, path = visitor_of(request), request.url.path
    single = bool(state_of(request).settings.single)
    message = DONE.get(request.query_params.get("done", ""), "")
    if visitor is None:
        return Frame("", "", "", (), "", message, single, path)
    person = visitor.person
    return Frame(
        who=person.name,
        role=str(person.role),
        desk=person.desk,
        nav=_nav(visitor, path),
        form_key=visitor.form_key,
        message=message,
        single=single,
        path=path,
    )


@cache
def _static(name: str) -> str:
    """Return the address of a file that comes with the pages; it changes when the file does."""
    digest = sha256((_STATIC / name).read_bytes()).hexdigest()[:12]
    return f"/static/{name}?v={digest}"


@cache
def environment() -> Environment:
    """Return what fills templates: every text escaped, every name defined."""
    made = Environment(
        loader=FileSystemLoader(_HERE / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.globals["static"] = _static
    return made


def render(request: Request, template: str, page: object, status: int = 200) -> HTMLResponse:
    """Fill a template with the record of its page.

    Parameters
    ----------
    request : Request
        What was asked.
    template : str
        Name of the file, such as ``home.html``; its record is then called ``HomePage``.
    page : object
        A frozen dataclass: all the template may use beside ``frame``.
    status : int
        Of HTTP.

    Returns
    -------
    HTMLResponse
        The page.
    """
    text = environment().get_template(template).render(page=page, frame=_frame(request))
    return HTMLResponse(text, status)
