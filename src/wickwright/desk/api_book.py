"""The fit book for programs: lamps, parts, wishes and complaints, each with its validator."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import Annotated, Final, TypeVar
from urllib.parse import urlencode

from fastapi import APIRouter, Path, Query
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.book.records import plain_record, sold_on
from wickwright.answers.plain.answers import Plain, plain_part, plain_replacement
from wickwright.answers.what_replaced import what_replaced
from wickwright.catalogue.call_records import Complaint
from wickwright.catalogue.records import KINDS, Lamp, Part, Wish
from wickwright.catalogue.spelling import meant, spelled
from wickwright.desk.api_book_shapes import (
    BookState,
    ComplaintList,
    LampList,
    LampRecord,
    PartList,
    PartRecord,
    WishList,
)
from wickwright.desk.api_here import (
    BookAsked,
    BookHere,
    answer,
    etag,
    kept_headers,
    unchanged,
)
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong
from wickwright.desk.api_told import told

__all__ = ["router"]

router = APIRouter(tags=["fit book"])
T = TypeVar("T")

MOST: Final = 1000
"""Records on a page at most [-]."""

PageNumber = Annotated[int, Query(ge=1, le=1_000_000, description="Which page, from 1.")]
PageSize = Annotated[int, Query(ge=1, le=MOST, description="Records on a page.")]
PartKind = Annotated[
    str | None, Query(description="Only parts of this kind.", examples=["chimney"])
]
RecordName = Annotated[
    str, Path(max_length=100, description="Its number; capitals and kinds of dash disregarded.")
]


@router.get("/book", summary="The revision of the fit book", responses=told(BookState, tag=True))
def book(request: Request, asked: BookHere) -> Response:
    """Say which revision holds, or the one named, and how much it holds."""
    revision, records = asked.opened.revision, asked.opened.book
    since = _time(revision.in_force) if revision.in_force else None
    headers = kept_headers(asked, etag(asked, f"book/{since}"))
    return unchanged(request, headers) or answer(
        {
            "revision": revision.id,
            "name": revision.name,
            "loaded": _time(revision.loaded),
            "in_force": since,
            "currency": records.currency,
            "about": dict(records.about),
            "counts": {
                "lamps": len(records.lamps),
                "parts": len(records.parts),
                "wishes": len(records.wishes),
                "complaints": len(records.calls.complaints),
            },
        },
        headers=headers,
    )


def _time(at: datetime) -> str:
    return f"{at:%Y-%m-%dT%H:%M:%S.%fZ}"


# -- lists ---------------------------------------------------------------------------------------


@router.get("/lamps", summary="All lamps", responses=told(LampList, tag=True, links=True))
def lamps(
    request: Request, asked: BookHere, page: PageNumber = 1, size: PageSize = 100
) -> Response:
    """List the lamps, page by page."""
    return _page(
        request,
        asked,
        "lamps",
        [*asked.opened.book.lamps.values()],
        _lamp_line,
        page=page,
        size=size,
    )


@router.get("/parts", summary="All parts", responses=told(PartList, tag=True, links=True))
def parts(
    request: Request,
    asked: BookHere,
    page: PageNumber = 1,
    size: PageSize = 100,
    kind: PartKind = None,
) -> Response:
    """List the parts, all or of one kind, page by page."""
    if kind is not None and kind not in KINDS:
        says = (
            f"There is no such kind of part: {meant(kind, KINDS)}it is one of {', '.join(KINDS)}."
        )
        raise ProblemError(Refusal.NOT_USABLE, says, (Wrong("query", ("kind",), says),))
    found = [one for one in asked.opened.book.parts.values() if kind in (None, one.kind)]
    return _page(request, asked, "parts", found, plain_part, page=page, size=size)


@router.get("/wishes", summary="All wishes", responses=told(WishList, tag=True, links=True))
def wishes(
    request: Request, asked: BookHere, page: PageNumber = 1, size: PageSize = 100
) -> Response:
    """List what callers can want, page by page."""
    return _page(
        request,
        asked,
        "wishes",
        [*asked.opened.book.wishes.values()],
        _wish_line,
        page=page,
        size=size,
    )


@router.get(
    "/complaints", summary="All complaints", responses=told(ComplaintList, tag=True, links=True)
)
def complaints(
    request: Request, asked: BookHere, page: PageNumber = 1, size: PageSize = 100
) -> Response:
    """List what callers can complain of, page by page."""
    found = [*asked.opened.book.calls.complaints.values()]
    return _page(request, asked, "complaints", found, _complaint_line, page=page, size=size)


def _lamp_line(lamp: Lamp) -> dict[str, Plain]:
    return {
        "lamp": lamp.id,
        "name": lamp.name,
        "family": lamp.family,
        "form": str(lamp.form),
        "service": str(lamp.service),
        "first": lamp.first,
        "last": lamp.last,
    }


def _wish_line(wish: Wish) -> dict[str, Plain]:
    return {
        "wish": wish.id,
        "title": wish.title,
        "asks": [{"ask": it.ask, "kind": it.kind or None, "says": it.says} for it in wish.asks],
        "words": list(wish.words),
    }


def _complaint_line(complaint: Complaint) -> dict[str, Plain]:
    return {
        "complaint": complaint.id,
        "says": complaint.says,
        "words": list(complaint.words),
    }


def _page(
    request: Request,
    asked: BookAsked,
    name: str,
    records: Sequence[T],
    plain: Callable[[T], dict[str, Plain]],
    *,
    page: int,
    size: int,
) -> Response:
    """Return a page of records, with the way to the others."""
    query = {key: text for key, text in request.query_params.items() if key in ("kind", "revision")}
    links = _links(
        request.url.path, {**query, "revision": asked.opened.revision.id}, page, size, len(records)
    )
    headers = kept_headers(
        asked, etag(asked, f"{name}/{urlencode({**query, 'page': page, 'size': size})}")
    )
    headers["Link"] = links
    if same := unchanged(request, headers):
        return same
    shown = records[(page - 1) * size : page * size]
    body: dict[str, Plain] = {
        "revision": asked.opened.revision.id,
        "total": len(records),
        "page": page,
        "size": size,
        name: [plain(one) for one in shown],
    }
    return answer(body, headers=headers)


def _links(path: str, query: Mapping[str, str], page: int, size: int, total: int) -> str:
    """Return the header Link (``rfc8288``); its addresses name the revision, so none changes."""
    last = max(1, -(-total // size))
    places = {"first": 1, "prev": min(page - 1, last), "next": page + 1, "last": last}
    there = {rel: at for rel, at in places.items() if 1 <= at <= last}
    return ", ".join(
        f'<{path}?{urlencode({**query, "page": at, "size": size})}>; rel="{rel}"'
        for rel, at in there.items()
    )


# -- single records ------------------------------------------------------------------------------


@router.get("/lamps/{lamp}", summary="One lamp", responses=told(LampRecord, tag=True, names=True))
def one_lamp(request: Request, asked: BookHere, lamp: RecordName) -> Response:
    """Return a lamp and what it was sold with."""
    records = asked.opened.book.lamps
    found = records[_spelled(lamp, records, "lamp")]
    headers = kept_headers(asked, etag(asked, f"lamps/{found.id}"))
    return unchanged(request, headers) or answer(
        plain_record(asked.opened.compiled, found), headers=headers
    )


@router.get("/parts/{part}", summary="One part", responses=told(PartRecord, tag=True, names=True))
def one_part(request: Request, asked: BookHere, part: RecordName) -> Response:
    """Return a part, what fits its joints by itself, and what replaced it."""
    records = asked.opened.book.parts
    found = records[_spelled(part, records, "part")]
    headers = kept_headers(asked, etag(asked, f"parts/{found.id}"))
    return unchanged(request, headers) or answer(_plain_part(asked, found), headers=headers)


def _plain_part(asked: BookAsked, part: Part) -> dict[str, Plain]:
    compiled = asked.opened.compiled
    replaced = plain_replacement(what_replaced(compiled, part.id))
    return {
        **plain_part(part),
        **plain_record(compiled, part),
        "sold_on": [lamp.id for lamp in sold_on(compiled.book, part)],
        "replaced_by": {"steps": replaced["steps"], "heir": replaced["heir"]},
    }


def _spelled(name: str, records: Mapping[str, object], what: str) -> str:
    found = spelled(name, records)
    if not found:
        near = meant(name, records)
        says = f"There is no {what} of that number: {near}GET /api/v1/{what}s lists them."
        raise ProblemError(Refusal.UNKNOWN_NAME, says, (Wrong("path", (what,), says),), status=404)
    return found
