"""What resources of the interface share: the fit book asked, conditions on it, and answers."""

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final
from urllib.parse import quote

from fastapi import Depends, Query
from starlette.requests import Request
from starlette.responses import Response

from wickwright import __version__
from wickwright.answers.plain.answers import Plain
from wickwright.desk.api_access import Asking
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong
from wickwright.desk.open_books import OpenBook
from wickwright.desk.state import state_of
from wickwright.terms.units import Units

__all__ = [
    "BookAsked",
    "BookHere",
    "InForce",
    "answer",
    "etag",
    "json_bytes",
    "kept_headers",
    "listed_tags",
    "unchanged",
]

_REVALIDATE: Final = "private, no-cache"
_KEPT: Final = "private, max-age=3600"
_TAGS: Final = re.compile(r'\s*(?:W/)?("[\x21\x23-\x7e\x80-\xff]*")\s*(?:,|$)')


@dataclass(frozen=True, slots=True)
class BookAsked:
    """The fit book that is asked.

    Attributes
    ----------
    opened : OpenBook
        Ready for questions.
    units : Units
        For words.
    named : str
        The revision the address names; blank where it is the one in force.
    """

    opened: OpenBook
    units: Units
    named: str


def _book(
    request: Request,
    asker: Asking,
    revision: Annotated[
        str | None,
        Query(
            pattern="^[0-9a-f]{16}$",
            description="An older revision of the fit book; left out, the one in force.",
        ),
    ] = None,
) -> BookAsked:
    del asker
    state = state_of(request)
    opened = state.books.of(revision) if revision else state.books.in_force()
    if opened is None:
        says = "There is no such revision of the fit book: GET /api/v1/book names the one in force."
        wrong = (Wrong("query", ("revision",), says),)
        raise ProblemError(Refusal.NOT_FOUND, says, wrong)
    return BookAsked(opened, opened.units(state.settings.units), revision or "")


def _in_force(request: Request, asker: Asking) -> BookAsked:
    del asker
    state = state_of(request)
    opened = state.books.in_force()
    return BookAsked(opened, opened.units(state.settings.units), "")


BookHere = Annotated[BookAsked, Depends(_book)]
"""The fit book a resource is of: the one in force, or the one the address names."""
InForce = Annotated[BookAsked, Depends(_in_force)]
"""The fit book in force."""


# -- answers -------------------------------------------------------------------------------------


def json_bytes(plain: object) -> bytes:
    """Return plain data as JSON in UTF-8."""
    return json.dumps(plain, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def answer(plain: Plain, status: int = 200, headers: Mapping[str, str] | None = None) -> Response:
    """Return plain data as an answer."""
    return Response(json_bytes(plain), status, dict(headers or {}), "application/json")


def etag(asked: BookAsked, resource: str) -> str:
    """Return the strong validator of a resource of a fit book.

    Parameters
    ----------
    asked : BookAsked
        The book.
    resource : str
        Its name, such as ``parts/CH-3296``.

    Returns
    -------
    str
        In quotation marks. What fits is computed, so the program's version is part of it.
    """
    return f'"{asked.opened.revision.id}-{quote(resource, safe="/=&")}-{__version__}"'


def listed_tags(header: str) -> tuple[str, ...]:
    """Return the tags of an If-Match or If-None-Match; ``*`` stands for any.

    Parameters
    ----------
    header : str
        As it came.

    Returns
    -------
    tuple of str
        Without the marks of weakness; none where the header is no list of tags.
    """
    if header.strip() == "*":
        return ("*",)
    found, at = [], 0
    while at < len(header):
        tag = _TAGS.match(header, at)
        if tag is None:
            return ()
        found.append(tag[1])
        at = tag.end()
    return tuple(found)


def kept_headers(asked: BookAsked, tag: str) -> dict[str, str]:
    """Return the headers that say how long an answer may be kept."""
    return {"ETag": tag, "Cache-Control": _KEPT if asked.named else _REVALIDATE}


def unchanged(request: Request, headers: Mapping[str, str]) -> Response | None:
    """Return 304 where the asker has the answer already."""
    had = listed_tags(request.headers.get("if-none-match", ""))
    if had == ("*",) or headers["ETag"] in had:
        return Response(status_code=304, headers=dict(headers))
    return None
