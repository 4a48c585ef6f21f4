"""Photographs attached to a call: known by their bytes, never by what their file was called."""

from http import HTTPStatus
from typing import Final

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response

from wickwright.answers.sheet.desk_store import Unknown
from wickwright.desk.call_here import call_here
from wickwright.desk.people_here import Adviser, Sent
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import state_of

__all__ = ["media_of", "router"]

router = APIRouter()
_ENDINGS: Final = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp"}
_RIFF: Final = slice(8, 12)
_MOST: Final = 12
_LONGEST: Final = 200


def media_of(body: bytes) -> str:
    """Return what kind of picture bytes are; blank for none that is taken.

    Parameters
    ----------
    body : bytes
        Of a file.

    Returns
    -------
    str
        ``image/jpeg``, ``image/png`` or ``image/webp``, by its first bytes.
    """
    if body.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if body.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if body.startswith(b"RIFF") and body[_RIFF] == b"WEBP":
        return "image/webp"
    return ""


@router.post("/calls/{number}/photos")
def attach(request: Request, visitor: Adviser, number: int, sent: Sent) -> Response:
    """Attach a photograph to a call."""
    call_here(request, number)
    state, file = state_of(request), sent.files.get("photo")
    body = file.file.read() if file else b""
    media = media_of(body)
    if not media:
        raise RefusedError(
            400,
            "Not a photograph",
            "The file is empty, or neither JPEG, PNG nor WebP by its content.",
            "Choose a photograph; a telephone's HEIC has to be saved as JPEG first.",
        )
    if len(state.store.calls.photos(number)) >= _MOST:
        raise RefusedError(
            400, "Too many photographs", f"A call keeps {_MOST}.", "Keep those that tell most."
        )
    who, says = visitor.person.name, sent.line("says")[:_LONGEST]
    kept = state.store.calls.attach(number, media, body, says, who, state.clock())
    if isinstance(kept, Unknown):
        call_here(request, number)
    return RedirectResponse(f"/calls/{number}/trail?done=attached", HTTPStatus.SEE_OTHER)


@router.get("/calls/{number}/photos/{photo}")
def photo(request: Request, visitor: Adviser, number: int, photo: int) -> Response:
    """Return a photograph under a name of ours."""
    del visitor
    call_here(request, number)
    found = state_of(request).store.calls.photo(number, photo)
    if found is None:
        raise RefusedError(
            404, "There is no such photograph", "It was erased with its caller, or never there.",
            "Look at the call's trail for those it has.",
        )  # fmt: skip
    kept, body = found
    name = f"call-{number}-photo-{photo}.{_ENDINGS[kept.media]}"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return Response(body, media_type=kept.media, headers=headers)
