"""What the interface for machines refuses, as problem details after RFC 9457 (``rfc9457``)."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final, Literal

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

__all__ = ["PROBLEM_MEDIA", "ProblemError", "Refusal", "Wrong", "problem_answer"]

PROBLEM_MEDIA: Final = "application/problem+json"

Where = Literal["body", "query", "path", "header"]


class Refusal(StrEnum):
    """A kind of refusal: the last part of its URN."""

    NOT_READABLE = "not-readable"
    NO_KEY = "no-key"
    NOBODY = "nobody"
    NOT_YOURS = "not-yours"
    NOT_FOUND = "not-found"
    WRONG_METHOD = "wrong-method"
    KEY_RUNNING = "key-running"
    CLOSED = "closed"
    STALE = "stale"
    TOO_LARGE = "too-large"
    WRONG_MEDIA = "wrong-media"
    NOT_USABLE = "not-usable"
    UNKNOWN_NAME = "unknown-name"
    KEY_REUSED = "key-reused"
    NO_IF_MATCH = "no-if-match"
    OUR_MISTAKE = "our-mistake"
    NO_BOOK = "no-book"

    @property
    def status(self) -> int:
        """Of HTTP, where nothing else is said."""
        return _KINDS[self][0]

    @property
    def title(self) -> str:  # type: ignore[override]  # no text asks a kind for its capitals
        """The same whenever it is refused."""
        return _KINDS[self][1]

    @property
    def urn(self) -> str:
        """The ``type`` of its problems, such as ``urn:wickwright:unknown-name``."""
        return f"urn:wickwright:{self}"


_KINDS: Final[dict[Refusal, tuple[int, str]]] = {
    Refusal.NOT_READABLE: (400, "The body cannot be read as JSON"),
    Refusal.NO_KEY: (400, "A write needs an Idempotency-Key"),
    Refusal.NOBODY: (401, "Nobody is known by this request"),
    Refusal.NOT_YOURS: (403, "This is not yours to do"),
    Refusal.NOT_FOUND: (404, "There is no such resource"),
    Refusal.WRONG_METHOD: (405, "The resource does not take this method"),
    Refusal.KEY_RUNNING: (409, "A write with this key is still being done"),
    Refusal.CLOSED: (409, "The call is closed"),
    Refusal.STALE: (412, "The call has been changed meanwhile"),
    Refusal.TOO_LARGE: (413, "More was sent than is taken"),
    Refusal.WRONG_MEDIA: (415, "The body is of another kind than is taken"),
    Refusal.NOT_USABLE: (422, "What was sent cannot be used"),
    Refusal.UNKNOWN_NAME: (422, "A name is not in the fit book"),
    Refusal.KEY_REUSED: (422, "This key came with another body before"),
    Refusal.NO_IF_MATCH: (428, "A change needs an If-Match"),
    Refusal.OUR_MISTAKE: (500, "A mistake of ours"),
    Refusal.NO_BOOK: (503, "No fit book to answer from"),
}


@dataclass(frozen=True, slots=True)
class Wrong:
    """One thing that is wrong with a request.

    Attributes
    ----------
    where : {'body', 'query', 'path', 'header'}
        In which part of it.
    at : tuple of str or int
        The way to it: keys and places in lists.
    says : str
        What is wrong and what mends it.
    """

    where: Where
    at: tuple[str | int, ...]
    says: str

    @property
    def plain(self) -> dict[str, str | None]:
        """As it goes out: a JSON pointer into the body, or the name of a parameter."""
        in_body = self.where == "body"
        return {
            "in": self.where,
            "pointer": _pointer(self.at) if in_body else None,
            "parameter": None if in_body else str(self.at[0]) if self.at else "",
            "detail": self.says,
        }


def _pointer(at: Iterable[str | int]) -> str:
    """Return a JSON pointer as a fragment of an address (RFC 6901, section 6)."""
    parts = (str(one).replace("~", "~0").replace("/", "~1") for one in at)
    return "#" + "".join(f"/{_readable(part)}" for part in parts)


def _readable(text: str) -> str:
    """Return a text without signs that no JSON text in UTF-8 can hold."""
    return text.encode("utf-8", "replace").decode()


class ProblemError(Exception):
    """The interface does not do this.

    Parameters
    ----------
    kind : Refusal
        Which.
    says : str
        What happened and what mends it.
    wrong : sequence of Wrong
        Every single fault.
    status : int or None
        Where it is another than that of the kind.
    headers : mapping of str to str or None
        That go with it.
    """

    def __init__(
        self,
        kind: Refusal,
        says: str,
        wrong: Sequence[Wrong] = (),
        *,
        status: int | None = None,
        headers: Mapping[str, str] | None = None,
    ) -> None:
        super().__init__(says)
        self.kind = kind
        self.says = says
        self.wrong = tuple(wrong)
        self.status = status or kind.status
        self.headers = dict(headers or {})


def problem_answer(request: Request, problem: ProblemError) -> Response:
    """Answer with a problem.

    Parameters
    ----------
    request : Request
        What was asked.
    problem : ProblemError
        Why it is refused.

    Returns
    -------
    Response
        Of the media type ``application/problem+json``.
    """
    body = {
        "type": problem.kind.urn,
        "title": problem.kind.title,
        "status": problem.status,
        "detail": _readable(problem.says),
        "instance": _readable(request.url.path),
        "errors": [_sendable(one.plain) for one in problem.wrong],
    }
    return JSONResponse(body, problem.status, problem.headers, PROBLEM_MEDIA)


def _sendable(plain: Mapping[str, str | None]) -> dict[str, str | None]:
    return {name: None if text is None else _readable(text) for name, text in plain.items()}
