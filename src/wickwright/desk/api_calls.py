"""Calls that a program hands to the desk: begun once, read and changed by whoever handed them."""

import json
import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from typing import Annotated, Any, Final, cast

from fastapi import APIRouter, Header, Path
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.plain.answers import Plain
from wickwright.answers.sheet.call_record import Call, Caller, CallState, Said
from wickwright.answers.sheet.desk_store import Role, Stale, Unknown
from wickwright.desk.api_access import Asker, Asking
from wickwright.desk.api_bodies import CallChanged, CallSent
from wickwright.desk.api_call_shapes import CallAnswer, CallMade
from wickwright.desk.api_document import API_PATH
from wickwright.desk.api_faults import IDEMPOTENCY_KEY, IF_MATCH
from wickwright.desk.api_here import BookAsked, InForce, answer, json_bytes, listed_tags, unchanged
from wickwright.desk.api_keys import KEY_PATTERN, KeyedWrite, Running, once
from wickwright.desk.api_names import LookUp
from wickwright.desk.api_problems import ProblemError, Refusal, Wrong
from wickwright.desk.api_told import told
from wickwright.desk.state import DeskState, state_of

__all__ = ["router"]

router = APIRouter(tags=["calls"])

_BODY: Final = (
    Refusal.UNKNOWN_NAME,
    Refusal.NOT_READABLE,
    Refusal.TOO_LARGE,
    Refusal.WRONG_MEDIA,
)
_KEYED: Final = (*_BODY, Refusal.NO_KEY, Refusal.KEY_RUNNING, Refusal.KEY_REUSED)
_MATCHED: Final = (*_BODY, Refusal.STALE, Refusal.NO_IF_MATCH, Refusal.CLOSED)
_LARGEST: Final = 2**31 - 1
_CALL_TAG: Final = re.compile(r'"call-([0-9]{1,10})-([0-9]{1,9})"')

CallNumber = Annotated[int, Path(ge=1, le=_LARGEST, description="Number of the call.")]


@router.post(
    "/calls",
    summary="Hand a question to the desk",
    status_code=201,
    responses=told(CallMade, status=201, tag=True, location=True, refused=_KEYED),
)
def begin(
    request: Request,
    asker: Asking,
    asked: InForce,
    body: CallSent,
    key: Annotated[
        str,
        Header(
            alias=IDEMPOTENCY_KEY,
            pattern=KEY_PATTERN,
            description="Any name of this write, such as a UUID. Sent again with the same body it "
            "is answered as the first time, for a week.",
            examples=['"8e03978e-40d5-43e8-bc93-6894a57f9324"'],
        ),
    ],
) -> Response:
    """Begin a call; sent again under the same key it is not begun again."""
    _takes_calls(asker)
    state = state_of(request)
    write = KeyedWrite(asker.person.name, key, ["POST /calls", body.model_dump(mode="json")])
    now = state.clock()

    def do() -> bytes:
        said = _said(state, asked, Said(), body.model_dump(), body)
        caller = Caller(**body.caller.model_dump())
        revision = asked.opened.revision.id
        call = state.store.calls.begin(said, caller, asker.person, revision, now)
        return json_bytes(_made(call))

    running = cast("Running", request.app.state.running)
    made = once(state.store, running, write, do, now)
    first = json.loads(made)
    headers = {
        "Location": f"{API_PATH}/calls/{first['call']}",
        "ETag": _tag(first["call"], first["version"]),
    }
    return Response(made, 201, headers, "application/json")


@router.get("/calls/{call}", summary="A call", responses=told(CallAnswer, tag=True))
def one_call(request: Request, asker: Asking, call: CallNumber) -> Response:
    """Return a call, to an adviser or to whoever handed it in."""
    found = _readable(state_of(request), asker, call)
    headers = {"ETag": _tag(call, found.version)}
    return unchanged(request, headers) or answer(_plain(found), headers=headers)


@router.patch(
    "/calls/{call}",
    summary="Change a call",
    responses=told(CallAnswer, tag=True, kept=False, refused=_MATCHED),
)
def change(
    request: Request,
    asker: Asking,
    asked: InForce,
    call: CallNumber,
    body: CallChanged,
    match: Annotated[
        str,
        Header(
            alias=IF_MATCH,
            min_length=1,
            max_length=1000,
            description="The ETag the change is meant for.",
            examples=['"call-1-1"'],
        ),
    ],
) -> Response:
    """Change what is sent of a call (a merge patch), unless somebody else changed it meanwhile."""
    state = state_of(request)
    before = _readable(state, asker, call)
    if before.state is CallState.CLOSED:
        raise ProblemError(Refusal.CLOSED, "The desk has closed this call: hand in a new one.")
    sent = body.model_dump(exclude_unset=True)
    said = _said(state, asked, before.said, sent, body)
    caller = replace(before.caller, **sent.get("caller", {}))
    after = _written(state, asker, before, (said, caller), _version(before, match))
    return answer(_plain(after), headers={"ETag": _tag(call, after.version)})


# -- who may -------------------------------------------------------------------------------------


def _takes_calls(asker: Asker) -> None:
    if asker.person.role not in {Role.ADVISER, Role.LEAD}:
        says = f"Calls are of advisers and leads; this is asked by the {asker.person.role}."
        raise ProblemError(Refusal.NOT_YOURS, says)


def _readable(state: DeskState, asker: Asker, number: int) -> Call:
    """Return a call that may be seen: by a token, only what was begun under its name."""
    _takes_calls(asker)
    call = state.store.calls.call(number)
    trail = state.store.calls.trail(number) if call else ()
    own = bool(trail) and trail[0].who == asker.person.name
    if call is None or (asker.by == "token" and not own):
        says = "There is no such call, or it was not handed in under this name."
        raise ProblemError(Refusal.NOT_FOUND, says, (Wrong("path", ("call",), says),))
    return call


# -- reading and writing -------------------------------------------------------------------------


def _said(
    state: DeskState,
    asked: BookAsked,
    before: Said,
    sent: Mapping[str, Any],
    body: CallSent | CallChanged,
) -> Said:
    """Return a sheet with what was sent, every name looked up."""
    look_up = LookUp(asked, state.towns)
    found: dict[str, Any] = {}
    if "words" in sent:
        found["words"] = body.words
    for name, known in (
        ("lamp", look_up.lamp),
        ("wish", look_up.wish),
        ("complaint", look_up.complaint),
    ):
        if name in sent:
            found[name] = known(sent[name])
    if "have" in sent:
        found["have"] = look_up.parts(body.have)
    if "lost" in sent:
        found["lost"] = look_up.lost(body.lost)
    if "place" in sent or "elevation_m" in sent:
        found["elevation"], _ = look_up.place(body)
        found["place"] = body.place or ""
    look_up.done()
    return replace(before, **found)


def _version(before: Call, match: str) -> int:
    """Return the version a change is meant for; what matches nothing is stale."""
    tags = listed_tags(match)
    if tags == ("*",) or _tag(before.number, before.version) in tags:
        return before.version
    named = [found for tag in tags if (found := _CALL_TAG.fullmatch(tag))]
    return next((int(found[2]) for found in named if int(found[1]) == before.number), 0)


def _written(
    state: DeskState, asker: Asker, before: Call, after: tuple[Said, Caller], version: int
) -> Call:
    said, caller = after
    calls, who, now = state.store.calls, asker.person.name, state.clock()
    done: Call | Stale | Unknown = before
    with state.store.together():
        if said != before.said:
            done = _fresh(calls.save(before.number, version, said, who, now))
            version = done.version
        if caller != before.caller:
            done = _fresh(calls.save_caller(before.number, version, caller, who, now))
    return _fresh(done)


def _fresh(done: Call | Stale | Unknown) -> Call:
    if isinstance(done, Stale):
        now = done.now
        says = (
            f"The call has been changed meanwhile: it is at {_tag(now.number, now.version)}. "
            "GET it, put your change to what stands there, and send that."
        )
        headers = {"ETag": _tag(now.number, now.version)}
        raise ProblemError(Refusal.STALE, says, headers=headers)
    if isinstance(done, Unknown):
        raise ProblemError(Refusal.NOT_FOUND, "There is no such call.")
    return done


# -- plain ---------------------------------------------------------------------------------------


def _tag(number: int, version: int) -> str:
    return f'"call-{number}-{version}"'


def _time(at: datetime) -> str:
    return f"{at:%Y-%m-%dT%H:%M:%S.%fZ}"


def _made(call: Call) -> dict[str, Plain]:
    """Return a call without a word of the caller's: this is kept for a week."""
    return {
        "call": call.number,
        "version": call.version,
        "state": str(call.state),
        "desk": call.desk,
        "revision": call.revision,
        "opened": _time(call.opened),
        "changed": _time(call.changed),
    }


def _plain(call: Call) -> dict[str, Plain]:
    said, caller = call.said, call.caller
    return {
        **_made(call),
        "words": said.words,
        "lamp": said.lamp or None,
        "wish": said.wish or None,
        "complaint": said.complaint or None,
        "place": said.place or None,
        "elevation_m": said.elevation,
        "have": list(said.have),
        "lost": list(said.lost),
        "caller": {"name": caller.name, "contact": caller.contact, "address": caller.address},
        "outcome": call.closing.outcome if call.closing else None,
    }
