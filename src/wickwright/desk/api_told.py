"""What an operation of the interface answers, for its OpenAPI document."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from wickwright.desk.api_problems import PROBLEM_MEDIA, Refusal

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["refusals", "told"]

_TEXT: Final = {"schema": {"type": "string"}}
_ALWAYS: Final = (Refusal.NOBODY, Refusal.NOT_YOURS, Refusal.NO_BOOK)
_SAYS: Final = {
    "ETag": "Strong validator, for If-None-Match or If-Match.",
    "Link": "Ways to the first, previous, next and last page (RFC 8288).",
    "Location": "Where the new resource is.",
    "WWW-Authenticate": "How to make oneself known.",
}


def _headers(names: Iterable[str]) -> dict[str, Any]:
    return {name: {"description": _SAYS[name], **_TEXT} for name in names}


def told(
    model: object,
    *,
    status: int = 200,
    tag: bool = False,
    links: bool = False,
    names: bool = False,
    location: bool = False,
    kept: bool = True,
    refused: Iterable[Refusal] = (),
) -> dict[int | str, dict[str, Any]]:
    """Return the answers of an operation as its document describes them.

    Parameters
    ----------
    model : type
        Shape of the answer.
    status : int
        Of the answer.
    tag, links, location : bool
        Whether it carries ETag, Link, Location.
    kept : bool
        Whether the asker may have it already.
    names : bool
        Whether its path names a record, which may not be there.
    refused : iterable of Refusal
        Further kinds of refusal.

    Returns
    -------
    dict
        By status.
    """
    carried = [
        *(["ETag"] if tag else []),
        *(["Link"] if links else []),
        *(["Location"] if location else []),
    ]
    found: dict[int | str, dict[str, Any]] = {
        status: {"model": model, "description": "The answer.", "headers": _headers(carried)}
    }
    if tag and kept and not location:
        found[304] = {"description": "What was kept still holds.", "headers": _headers(["ETag"])}
    at = {Refusal.UNKNOWN_NAME: 404} if names else {}
    kinds = dict.fromkeys((*_ALWAYS, Refusal.NOT_USABLE, Refusal.NOT_FOUND, *refused, *at))
    return {**found, **refusals(kinds, at)}


def refusals(kinds: Iterable[Refusal], at: dict[Refusal, int]) -> dict[int | str, dict[str, Any]]:
    """Return problems as a document describes them.

    Parameters
    ----------
    kinds : iterable of Refusal
        Which.
    at : dict of Refusal to int
        Statuses that are others than those of their kinds.

    Returns
    -------
    dict
        By status; kinds of one status stand together.
    """
    by_status: dict[int, list[Refusal]] = {}
    for kind in kinds:
        by_status.setdefault(at.get(kind, kind.status), []).append(kind)
    return {status: _problem(status, found) for status, found in sorted(by_status.items())}


def _problem(status: int, kinds: list[Refusal]) -> dict[str, Any]:
    says = "; ".join(f"{kind.title} (`{kind.urn}`)" for kind in kinds)
    described: dict[str, Any] = {
        "description": f"{says}.",
        "content": {PROBLEM_MEDIA: {"schema": {"$ref": "#/components/schemas/Problem"}}},
    }
    if status == 401:  # noqa: PLR2004 - HTTP's own number
        described["headers"] = _headers(["WWW-Authenticate"])
    return described
