"""A store that keeps everything in memory, for tests of pages."""

from __future__ import annotations

import hashlib
from contextlib import nullcontext
from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.answers.call_record import (
    Call,
    Caller,
    CallLine,
    CallState,
    Given,
    Photo,
    Said,
    Trace,
    changed_fields,
    said_with,
)
from wickwright.answers.desk_store import (
    KeptReply,
    Noted,
    NothingToTakeBack,
    Person,
    Revision,
    Session,
    Stale,
    Unknown,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from contextlib import AbstractContextManager
    from datetime import datetime

    from wickwright.answers.call_record import Closing
    from wickwright.answers.plain import Plain
    from wickwright.catalogue.faults import RawTable

__all__ = ["MemoryStore"]


class _Calls:
    def __init__(self) -> None:
        self._calls: dict[int, Call] = {}
        self._trails: dict[int, list[Trace]] = {}
        self._photos: dict[int, list[tuple[Photo, bytes]]] = {}
        self._given: dict[int, list[Given]] = {}

    def begin(self, said: Said, caller: Caller, who: Person, revision: str, at: datetime) -> Call:
        number = len(self._calls) + 1
        call = Call(
            number, 1, CallState.OPEN, who.desk, who.name, at, at, revision, caller, said
        )  # fmt: skip
        self._calls[number] = call
        _, after = changed_fields(Said(), said)
        self._trails[number] = [Trace(1, at, who.name, "said", {}, after)]
        self._photos[number], self._given[number] = [], []
        return call

    def call(self, number: int) -> Call | None:
        return self._calls.get(number)

    def _write(
        self,
        number: int,
        version: int,
        who: str,
        at: datetime,
        did: str,
        note: str = "",
        **changes: object,
    ) -> Call | Stale | Unknown:
        call = self._calls.get(number)
        if call is None:
            return Unknown(f"call {number}")
        if call.version != version:
            return Stale(call)
        new = replace(call, version=version + 1, adviser=who, changed=at, **changes)  # type: ignore[arg-type]
        before, after = changed_fields(call.said, new.said)
        self._calls[number] = new
        self._trails[number].append(Trace(new.version, at, who, did, before, after, note))
        return new

    def save(
        self, number: int, version: int, said: Said, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        call = self._calls.get(number)
        if call is not None and call.version == version and call.said == said:
            return call
        return self._write(number, version, who, at, "said", said=said)

    def save_caller(
        self, number: int, version: int, caller: Caller, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        return self._write(number, version, who, at, "caller", caller=caller)

    def take_back(
        self, number: int, version: int, who: str, at: datetime
    ) -> Call | Stale | Unknown | NothingToTakeBack:
        call = self._calls.get(number)
        if call is None:
            return Unknown(f"call {number}")
        steps = [one for one in self._trails[number] if one.did in {"said", "taken back"}]
        left: list[Trace] = []
        for one in steps:
            if one.did == "said":
                left.append(one)
            else:
                left.pop()
        if len(left) < 2:
            return NothingToTakeBack()
        said = said_with(call.said, left[-1].before)
        return self._write(number, version, who, at, "taken back", said=said)

    def hand_over(
        self, number: int, version: int, desk: str, note: str, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        return self._write(number, version, who, at, "handed over", note, desk=desk)

    def close(
        self, number: int, version: int, closing: Closing, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        return self._write(
            number, version, who, at, "closed", closing=closing, state=CallState.CLOSED
        )  # fmt: skip

    def reopen(self, number: int, version: int, who: str, at: datetime) -> Call | Stale | Unknown:
        return self._write(
            number, version, who, at, "opened again", closing=None, state=CallState.OPEN
        )  # fmt: skip

    def move(
        self, number: int, version: int, revision: str, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        return self._write(number, version, who, at, "moved", revision, revision=revision)

    def trail(self, number: int) -> tuple[Trace, ...]:
        return tuple(self._trails.get(number, ()))

    def open_calls(self, desk: str = "") -> tuple[CallLine, ...]:
        return tuple(
            _line(call)
            for call in self._calls.values()
            if call.state is CallState.OPEN and desk in {"", call.desk}
        )

    def find(self, text: str, most: int = 50) -> tuple[CallLine, ...]:
        wanted = text.casefold()
        found = [call for call in self._calls.values() if wanted in _searched(call)]
        return tuple(_line(call) for call in found[::-1][:most])

    def with_part(self, part: str) -> tuple[CallLine, ...]:
        return tuple(
            _line(call)
            for call in self._calls.values()
            if part in {*call.said.have, *call.said.lost, *call.said.route}
            and call.state is CallState.OPEN
        )

    def closed(self) -> tuple[Call, ...]:
        return tuple(call for call in self._calls.values() if call.state is CallState.CLOSED)

    def erase(self, number: int, who: str, at: datetime) -> Call | Unknown:
        call = self._calls.get(number)
        if call is None:
            return Unknown(f"call {number}")
        said = replace(call.said, words="", reply="", note="")
        done = self._write(
            number, call.version, who, at, "erased", said=said, caller=Caller()
        )  # fmt: skip
        assert isinstance(done, Call)
        gone = {"words", "reply", "note"}
        self._trails[number] = [
            replace(
                one,
                before={key: value for key, value in one.before.items() if key not in gone},
                after={key: value for key, value in one.after.items() if key not in gone},
                note="",
            )
            for one in self._trails[number]
        ]
        self._photos[number] = []
        return done

    def attach(
        self, number: int, media: str, body: bytes, says: str, who: str, at: datetime
    ) -> Photo | Unknown:
        if number not in self._calls:
            return Unknown(f"call {number}")
        kept = self._photos[number]
        photo = Photo(len(kept) + 1, number, at, who, media, len(body), says)
        kept.append((photo, body))
        return photo

    def photos(self, number: int) -> tuple[Photo, ...]:
        return tuple(photo for photo, _ in self._photos.get(number, ()))

    def photo(self, call: int, number: int) -> tuple[Photo, bytes] | None:
        kept = self._photos.get(call, [])
        return next((one for one in kept if one[0].number == number), None)

    def give(
        self, number: int, what: str, answer: dict[str, Plain], who: str, at: datetime
    ) -> Given | Unknown:
        call = self._calls.get(number)
        if call is None:
            return Unknown(f"call {number}")
        kept = self._given[number]
        given = Given(
            len(kept) + 1, number, call.version, at, who, what, call.revision, answer
        )  # fmt: skip
        kept.append(given)
        return given

    def given(self, number: int) -> tuple[Given, ...]:
        return tuple(self._given.get(number, ()))


def _searched(call: Call) -> str:
    said = call.said
    parts = [*said.have, *said.lost, *said.route]
    return " ".join([str(call.number), call.caller.name, said.words, said.lamp, *parts]).casefold()


def _line(call: Call) -> CallLine:
    return CallLine(
        call.number, call.state, call.desk, call.adviser, call.opened, call.changed,
        call.caller.name, call.said.words, call.said.lamp,
    )  # fmt: skip


class _Books:
    def __init__(self) -> None:
        self._kept: dict[str, tuple[Revision, tuple[RawTable, ...]]] = {}
        self._in_force = ""

    def add(self, tables: Sequence[RawTable], name: str, who: str, at: datetime) -> Revision:
        key = hashlib.sha256(repr(tuple(tables)).encode()).hexdigest()[:16]
        if key not in self._kept:
            self._kept[key] = (Revision(key, at, who, name), tuple(tables))
        return self._kept[key][0]

    def put_in_force(
        self, revision: str, who: str, reason: str, at: datetime
    ) -> Revision | Unknown:
        if revision not in self._kept:
            return Unknown(f"revision {revision}")
        old, tables = self._kept[revision]
        new = replace(old, in_force=at, signed=who, reason=reason)
        self._kept[revision], self._in_force = (new, tables), revision
        return new

    def in_force(self) -> Revision | None:
        return self._kept[self._in_force][0] if self._in_force else None

    def revisions(self) -> tuple[Revision, ...]:
        return tuple(revision for revision, _ in self._kept.values())[::-1]

    def tables(self, revision: str) -> tuple[RawTable, ...] | None:
        return self._kept[revision][1] if revision in self._kept else None


class _People:
    def __init__(self) -> None:
        self._people: dict[str, Person] = {}
        self.sessions: dict[str, Session] = {}
        self._failed: list[tuple[str, datetime]] = []

    def people(self) -> tuple[Person, ...]:
        return tuple(sorted(self._people.values(), key=lambda one: one.name))

    def person(self, name: str) -> Person | None:
        return self._people.get(name.casefold())

    def put(self, person: Person, who: str, at: datetime) -> Person:
        del who, at
        old = self.person(person.name)
        self._people[person.name.casefold()] = person
        if old is not None and (old.password, old.role) != (person.password, person.role):
            self._end(person.name)
        if not person.active:
            self._end(person.name)
        return person

    def _end(self, name: str) -> None:
        left = {key: one for key, one in self.sessions.items() if one.person != name}
        self.sessions = left

    def log_in(self, session: Session) -> None:
        self.sessions[session.key] = session

    def session(self, key: str) -> Session | None:
        return self.sessions.get(key)

    def seen(self, key: str, at: datetime) -> None:
        self.sessions[key] = replace(self.sessions[key], seen=at)

    def log_out(self, key: str) -> None:
        self.sessions.pop(key, None)

    def failed(self, name: str, at: datetime) -> None:
        self._failed.append((name.casefold(), at))

    def failures(self, name: str, since: datetime) -> int:
        return sum(one == name.casefold() and at >= since for one, at in self._failed)


class _Ledger:
    def __init__(self) -> None:
        self._lines: list[Noted] = []

    def note(self, who: str, what: str, where: str, at: datetime) -> None:
        self._lines.append(Noted(at, who, what, where))

    def newest(self, most: int = 200) -> tuple[Noted, ...]:
        return tuple(self._lines[::-1][:most])


class _Replies:
    def __init__(self) -> None:
        self._kept: dict[str, KeptReply] = {}

    def kept(self, key: str) -> KeptReply | None:
        return self._kept.get(key)

    def keep(self, reply: KeptReply, at: datetime) -> KeptReply:
        del at
        return self._kept.setdefault(reply.key, reply)


class MemoryStore:
    """Everything in memory."""

    def __init__(self) -> None:
        self.calls = _Calls()
        self.books = _Books()
        self.people = _People()
        self.ledger = _Ledger()
        self.replies = _Replies()

    def together(self) -> AbstractContextManager[None]:
        """Undo nothing: in memory no write fails half way."""
        return nullcontext()

    def close(self) -> None:
        """Let go of nothing."""
