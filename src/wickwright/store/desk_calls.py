"""Calls kept in tables: each change is one transaction, with its step of the trail in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import sqlalchemy as sa

from wickwright.answers.sheet.call_record import (
    Call,
    CallState,
    Photo,
    Said,
    changed_fields,
    said_with,
)
from wickwright.answers.sheet.desk_store import NothingToTakeBack, Stale, Unknown
from wickwright.store.call_rows import (
    call_of,
    closing_plain,
    given_of,
    keepable_caller,
    keepable_closing,
    keepable_said,
    known_number,
    line_of,
    parts_noted,
    photo_of,
    read_call,
    trace_of,
    values_of,
    write_parts,
)
from wickwright.store.column_types import keepable, keepable_plain
from wickwright.store.erasing import erase_call
from wickwright.store.finding import holds, number_in, text_in
from wickwright.store.folding import search_words
from wickwright.store.schema import call_parts, calls, fingerprint, given, photos, trail

if TYPE_CHECKING:
    from collections.abc import Callable, Collection
    from datetime import datetime

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.sheet.call_record import Caller, CallLine, Closing, Given, Trace
    from wickwright.answers.sheet.desk_store import Person
    from wickwright.store.engines import Engines

__all__ = ["KeptCalls"]

_LINE = (
    calls.c.number,
    calls.c.state,
    calls.c.desk,
    calls.c.adviser,
    calls.c.opened,
    calls.c.changed,
    calls.c.name,
    text_in(calls.c.said, "words").label("words"),
    text_in(calls.c.said, "lamp").label("lamp"),
)
_OPEN = calls.c.state == str(CallState.OPEN)
_OLDEST = (calls.c.opened, calls.c.number)
_SIZE = sa.func.length(photos.c.body).label("size")


@dataclass(frozen=True, slots=True)
class _Step:
    """A change of a call, with what its trail says of it."""

    call: Call
    did: str
    before: dict[str, Plain]
    after: dict[str, Plain]
    note: str = ""


class KeptCalls:
    """Calls and their trails.

    Parameters
    ----------
    engines : Engines
        Where transactions come from.
    """

    def __init__(self, engines: Engines) -> None:
        self._engines = engines

    # -- writing ---------------------------------------------------------------------------------

    def begin(self, said: Said, caller: Caller, who: Person, revision: str, at: datetime) -> Call:
        """Begin a call at a person's desk; its number is the next."""
        call = Call(
            number=0,
            version=1,
            state=CallState.OPEN,
            desk=keepable(who.desk),
            adviser=keepable(who.name),
            opened=at,
            changed=at,
            revision=keepable(revision),
            caller=keepable_caller(caller),
            said=keepable_said(said),
        )
        with self._engines.writing() as connection:
            row = sa.insert(calls).values(values_of(call)).returning(calls.c.number)
            call = replace(call, number=connection.execute(row).scalar_one())
            write_parts(connection, call)
            _write_step(connection, _Step(call, "begun", {}, changed_fields(Said(), call.said)[1]))
        return call

    def save(
        self, number: int, version: int, said: Said, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Write what stands on the sheet; the same again changes nothing."""
        kept = keepable_said(said)

        def step(call: Call) -> _Step | None:
            before, after = changed_fields(call.said, kept)
            return _Step(replace(call, said=kept), "said", before, after) if after else None

        return self._change(number, version, who, at, step)

    def note_sent(self, number: int, version: int, parts: Collection[str]) -> None:
        """Note which parts the answer of a call sends; no step, and nothing to be told."""
        with self._engines.reading() as connection:
            call = read_call(connection, number)
            if call is None or parts_noted(connection, call, parts):
                return
        with self._engines.writing() as connection:
            call = read_call(connection, number, hold=True)
            if call is not None and call.version == version:
                write_parts(connection, call, parts)

    def save_caller(
        self, number: int, version: int, caller: Caller, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Write who called; the trail tells that it changed, not what it was."""
        kept = keepable_caller(caller)

        def step(call: Call) -> _Step | None:
            if call.caller == kept:
                return None
            return _Step(replace(call, caller=kept), "caller", {}, {})

        return self._change(number, version, who, at, step)

    def hand_over(
        self, number: int, version: int, desk: str, note: str, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Lay the call on another desk."""
        there = keepable(desk)

        def step(call: Call) -> _Step:
            new = replace(call, desk=there)
            return _Step(new, "handed over", {"desk": call.desk}, {"desk": there}, keepable(note))

        return self._change(number, version, who, at, step)

    def close(
        self, number: int, version: int, closing: Closing, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Close the call."""
        kept = keepable_closing(closing)

        def step(call: Call) -> _Step | None:
            if call.closing == kept:
                return None
            new = replace(call, state=CallState.CLOSED, closing=kept)
            return _Step(new, "closed", _closing_of(call), closing_plain(kept))

        return self._change(number, version, who, at, step)

    def reopen(self, number: int, version: int, who: str, at: datetime) -> Call | Stale | Unknown:
        """Open it again; how it had ended stays in the trail."""

        def step(call: Call) -> _Step | None:
            if call.state is CallState.OPEN:
                return None
            new = replace(call, state=CallState.OPEN, closing=None)
            return _Step(new, "opened again", _closing_of(call), {})

        return self._change(number, version, who, at, step)

    def move(
        self, number: int, version: int, revision: str, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Have the call answered under another revision of the fit book."""
        under = keepable(revision)

        def step(call: Call) -> _Step | None:
            if call.revision == under:
                return None
            new = replace(call, revision=under)
            return _Step(new, "moved", {"revision": call.revision}, {"revision": under})

        return self._change(number, version, who, at, step)

    def take_back(
        self, number: int, version: int, who: str, at: datetime
    ) -> Call | Stale | Unknown | NothingToTakeBack:
        """Put the sheet back to before the last change that was not taken back yet."""
        with self._engines.writing() as connection:
            call = read_call(connection, number, hold=True)
            if call is None:
                return _no_call(number)
            if call.version != version:
                return Stale(call)
            last = connection.execute(_last_said(number)).mappings().first()
            if last is None:
                return NothingToTakeBack()
            gone = sa.update(trail).where(trail.c.step == last["step"]).values(standing=False)
            connection.execute(gone)
            said = said_with(call.said, last["before"])
            before, after = changed_fields(call.said, said)
            new = replace(call, said=said)
            return _write(connection, call, _Step(new, "taken back", before, after), who, at)

    def _change(
        self,
        number: int,
        version: int,
        who: str,
        at: datetime,
        step: Callable[[Call], _Step | None],
    ) -> Call | Stale | Unknown:
        """Write a step where the call still is what the writer saw."""
        with self._engines.writing() as connection:
            call = read_call(connection, number)
            if call is None:
                return _no_call(number)
            made = step(call)
            if call.version != version and not (made is None and _again(call, version, who)):
                return Stale(call)
            return call if made is None else _write(connection, call, made, who, at)

    def erase(self, number: int, who: str, at: datetime) -> Call | Unknown:
        """Erase who called, and every word of theirs."""
        with self._engines.writing() as connection:
            call = read_call(connection, number, hold=True)
            if call is None:
                return _no_call(number)
            erased = erase_call(connection, call)
            found = _write(connection, call, _Step(erased, "erased", {}, {}), who, at)
            self._engines.wipe_after()
        return found.now if isinstance(found, Stale) else found

    def attach(
        self, number: int, media: str, body: bytes, says: str, who: str, at: datetime
    ) -> Photo | Unknown:
        """Attach a photograph."""
        shown = keepable(says)
        values = {"call": number, "at": at, "who": who, "media": media, "says": shown}
        with self._engines.writing() as connection:
            call = read_call(connection, number, hold=True)
            if call is None:
                return _no_call(number)
            new = sa.insert(photos).values({**values, "body": body}).returning(photos.c.number)
            photo = connection.execute(new).scalar_one()
            _write_step(connection, _beside(call, who, at, "photo"))
        return Photo(photo, number, at, keepable(who), keepable(media), len(body), shown)

    def give(
        self, number: int, what: str, answer: dict[str, Plain], who: str, at: datetime
    ) -> Given | Unknown:
        """Keep an answer as it went out, under the call's version and revision."""
        with self._engines.writing() as connection:
            call = read_call(connection, number, hold=True)
            if call is None:
                return _no_call(number)
            values = {
                "call": number,
                "version": call.version,
                "at": at,
                "who": who,
                "what": what,
                "revision": call.revision,
                "answer": keepable_plain(answer),
            }
            new = sa.insert(given).values(values).returning(given)
            row = connection.execute(new).mappings().one()
            _write_step(connection, _beside(call, who, at, "given", keepable(what)))
        return given_of(row)

    # -- reading ---------------------------------------------------------------------------------

    def call(self, number: int) -> Call | None:
        """Return a call as it stands."""
        with self._engines.reading() as connection:
            return read_call(connection, number)

    def trail(self, number: int) -> tuple[Trace, ...]:
        """Return every step, oldest first."""
        wanted = sa.select(trail).where(trail.c.call == known_number(number)).order_by(trail.c.step)
        return tuple(trace_of(row) for row in self._rows(wanted))

    def open_calls(
        self, desk: str = "", *, but: str = "", skip: int = 0, most: int | None = None
    ) -> tuple[CallLine, ...]:
        """Return open calls, the oldest first: of one desk, of all but one, or of all."""
        wanted = sa.select(*_LINE).where(_OPEN)
        if desk:
            wanted = wanted.where(calls.c.desk == desk)
        if but:
            wanted = wanted.where(calls.c.desk != but)
        return self._lines(wanted.order_by(*_OLDEST).offset(skip).limit(most))

    def open_desks(self) -> dict[str, int]:
        """Return how many open calls lie at each desk at which one lies [-]."""
        counted = sa.select(calls.c.desk, sa.func.count().label("calls")).where(_OPEN)
        rows = self._rows(counted.group_by(calls.c.desk).order_by(calls.c.desk))
        return {row["desk"]: row["calls"] for row in rows}

    def find(self, text: str, most: int = 50) -> tuple[CallLine, ...]:
        """Return calls by number, caller, words, lamp, or part on the sheet; newest first."""
        wanted = sa.and_(sa.true(), *map(_finds, search_words(text)))
        numbered = calls.c.number == known_number(number_in(text))
        newest = sa.select(*_LINE).where(wanted | numbered)
        in_order = newest.order_by(numbered.desc(), calls.c.number.desc())
        return self._lines(in_order.limit(max(0, most)))

    def with_part(self, part: str, most: int | None = None) -> tuple[CallLine, ...]:
        """Return the open calls on whose sheet a part stands (have, lost or route)."""
        has = sa.select(call_parts.c.call).where(call_parts.c.part == fingerprint(part))
        wanted = sa.select(*_LINE).where(_OPEN, calls.c.number.in_(has))
        return self._lines(wanted.order_by(*_OLDEST).limit(most))

    def closed(self) -> tuple[Call, ...]:
        """Return the closed calls, oldest first; for learning."""
        wanted = sa.select(calls).where(calls.c.state == str(CallState.CLOSED))
        return tuple(call_of(row) for row in self._rows(wanted.order_by(calls.c.number)))

    def photos(self, number: int) -> tuple[Photo, ...]:
        """Return the photographs of a call."""
        wanted = _photos().where(photos.c.call == known_number(number)).order_by(photos.c.number)
        return tuple(photo_of(row) for row in self._rows(wanted))

    def photo(self, call: int, number: int) -> tuple[Photo, bytes] | None:
        """Return one photograph."""
        wanted = _photos(photos.c.body).where(
            photos.c.call == known_number(call), photos.c.number == known_number(number)
        )
        return next(((photo_of(row), bytes(row["body"])) for row in self._rows(wanted)), None)

    def given(self, number: int) -> tuple[Given, ...]:
        """Return every answer that went out, oldest first."""
        wanted = (
            sa.select(given).where(given.c.call == known_number(number)).order_by(given.c.number)
        )
        return tuple(given_of(row) for row in self._rows(wanted))

    def _rows(self, wanted: sa.Select[tuple[object, ...]]) -> list[sa.RowMapping]:
        with self._engines.reading() as connection:
            return list(connection.execute(wanted).mappings())

    def _lines(self, wanted: sa.Select[tuple[object, ...]]) -> tuple[CallLine, ...]:
        return tuple(line_of(row) for row in self._rows(wanted))


def _finds(word: str) -> sa.ColumnElement[bool]:
    """Return the condition that a word stands on a call, or is a part its answer sends."""
    has = sa.select(call_parts.c.call).where(call_parts.c.part == fingerprint(word))
    return holds(calls.c.search, word) | calls.c.number.in_(has)


def _photos(*more: sa.Column[bytes]) -> sa.Select[tuple[object, ...]]:
    columns = (photos.c.number, photos.c.call, photos.c.at, photos.c.who, photos.c.media)
    return sa.select(*columns, photos.c.says, _SIZE, *more)


def _no_call(number: int) -> Unknown:
    return Unknown(f"call {number}")


def _again(call: Call, version: int, who: str) -> bool:
    """Say whether a writer asks again for the change that this same writer made last."""
    return call.version == version + 1 and call.adviser == keepable(who)


def _closing_of(call: Call) -> dict[str, Plain]:
    return {} if call.closing is None else closing_plain(call.closing)


def _last_said(number: int) -> sa.Select[tuple[object, ...]]:
    return (
        sa.select(trail.c.step, trail.c.before)
        .where(trail.c.call == number, trail.c.did == "said", trail.c.standing)
        .order_by(trail.c.step.desc())
        .limit(1)
    )


def _beside(call: Call, who: str, at: datetime, did: str, note: str = "") -> _Step:
    """Return a step that leaves the call and its version as they are."""
    return _Step(replace(call, adviser=keepable(who), changed=at), did, {}, {}, note)


def _write(
    connection: sa.Connection, call: Call, step: _Step, who: str, at: datetime
) -> Call | Stale:
    """Write a changed call and its step, unless somebody was quicker."""
    new = replace(step.call, version=call.version + 1, adviser=keepable(who), changed=at)
    unchanged = (calls.c.number == call.number, calls.c.version == call.version)
    done = connection.execute(sa.update(calls).where(*unchanged).values(values_of(new)))
    if done.rowcount == 0:
        now = read_call(connection, call.number)
        return Stale(call if now is None else now)
    if new.said != call.said:
        write_parts(connection, new)
    _write_step(connection, replace(step, call=new))
    return new


def _write_step(connection: sa.Connection, step: _Step) -> None:
    values = {
        "call": step.call.number,
        "version": step.call.version,
        "at": step.call.changed,
        "who": step.call.adviser,
        "did": step.did,
        "before": step.before,
        "after": step.after,
        "note": step.note,
        "standing": step.did == "said",
    }
    connection.execute(sa.insert(trail).values(values))
