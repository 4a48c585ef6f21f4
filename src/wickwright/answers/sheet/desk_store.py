"""What the desk asks of a store, whatever holds it: calls, fit books, people, sessions.

No text is refused: a NUL and half a surrogate pair, which no database holds, are kept as U+FFFD.

The web pages know these protocols only; SQLite and PostgreSQL stand behind them, and one suite of
tests runs on both. A store reads no clock: whoever calls it hands it the time, in UTC.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence
    from contextlib import AbstractContextManager
    from datetime import datetime

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.sheet.call_record import (
        Call,
        Caller,
        CallLine,
        Closing,
        Given,
        Photo,
        Said,
        Trace,
    )
    from wickwright.catalogue.faults import RawTable

__all__ = [
    "Books",
    "Calls",
    "KeptReply",
    "Ledger",
    "Noted",
    "NothingToTakeBack",
    "People",
    "Person",
    "Replies",
    "Revision",
    "Role",
    "Session",
    "Stale",
    "Store",
    "Unknown",
]


class Role(StrEnum):
    """What a person may do at the desk."""

    ADVISER = "adviser"
    LEAD = "lead"
    INSPECTOR = "inspector"
    PLANNER = "planner"


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who may log in.

    Attributes
    ----------
    name : str
        By which they log in; unique, capitals disregarded.
    role : Role
        What they may do.
    desk : str
        Where they sit.
    password : str
        Its argon2 hash; blank where there is none yet.
    active : bool
        False when they may no longer log in.
    """

    name: str
    role: Role
    desk: str
    password: str
    active: bool = True


@dataclass(frozen=True, slots=True)
class Session:
    """Somebody who is logged in.

    Attributes
    ----------
    key : str
        SHA-256 of the cookie's token, in hexadecimal; the token itself is never kept.
    person : str
        Who.
    began, seen : datetime
        In UTC.
    form_key : str
        What every form of the session carries.
    """

    key: str
    person: str
    began: datetime
    seen: datetime
    form_key: str


@dataclass(frozen=True, slots=True)
class Revision:
    """A state of the fit book.

    Attributes
    ----------
    id : str
        First 16 hexadecimal digits of the SHA-256 of its tables.
    loaded : datetime
        When it came in, in UTC.
    who : str
        Who loaded it.
    name : str
        What they call it.
    in_force : datetime or None
        Since when it holds, in UTC; None where it never did.
    signed : str
        Who put it in force.
    reason : str
        Why.
    """

    id: str
    loaded: datetime
    who: str
    name: str
    in_force: datetime | None = None
    signed: str = ""
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Noted:
    """A line of the ledger: what was done or refused, by whom, without any caller's data."""

    at: datetime
    who: str
    what: str
    where: str


@dataclass(frozen=True, slots=True)
class KeptReply:
    """What was answered to a write that carried a key, to be answered again.

    Attributes
    ----------
    key : str
        Of the write.
    print : str
        SHA-256 of the request it came with.
    status : int
        Of the answer.
    body : bytes
        Of the answer.
    """

    key: str
    print: str
    status: int
    body: bytes


@dataclass(frozen=True, slots=True)
class Stale:
    """A change was refused, for the call has been changed meanwhile; nothing was written.

    Attributes
    ----------
    now : Call
        As it stands; ``now.adviser`` is who changed it.
    """

    now: Call


@dataclass(frozen=True, slots=True)
class Unknown:
    """There is no such thing in the store."""

    what: str


@dataclass(frozen=True, slots=True)
class NothingToTakeBack:
    """A call has no step that could be taken back."""


class Calls(Protocol):
    """Calls and their trails. Every write is whole or not at all."""

    def begin(self, said: Said, caller: Caller, who: Person, revision: str, at: datetime) -> Call:
        """Begin a call at a person's desk; its number is the next."""

    def call(self, number: int) -> Call | None:
        """Return a call as it stands."""

    def save(
        self, number: int, version: int, said: Said, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Write what stands on the sheet.

        What stands there already changes nothing. Whoever made the last change and heard no
        answer may ask for it again, under the same version, and is not told that it is stale;
        so it is with every write of a call.
        """

    def save_caller(
        self, number: int, version: int, caller: Caller, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Write who called; the trail tells that it changed, not what it was."""

    def take_back(
        self, number: int, version: int, who: str, at: datetime
    ) -> Call | Stale | Unknown | NothingToTakeBack:
        """Put the sheet back to before the last change that was not taken back yet."""

    def note_sent(self, number: int, version: int, parts: Collection[str]) -> None:
        """Note which parts the answer of a call sends, for it to be found by them.

        No step of the trail; nothing happens where the call is no longer at that version. They
        are forgotten when what stands on the sheet changes.
        """

    def hand_over(
        self, number: int, version: int, desk: str, note: str, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Lay the call on another desk."""

    def close(
        self, number: int, version: int, closing: Closing, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Close the call."""

    def reopen(self, number: int, version: int, who: str, at: datetime) -> Call | Stale | Unknown:
        """Open it again; how it had ended stays in the trail."""

    def move(
        self, number: int, version: int, revision: str, who: str, at: datetime
    ) -> Call | Stale | Unknown:
        """Have the call answered under another revision of the fit book."""

    def trail(self, number: int) -> tuple[Trace, ...]:
        """Return every step, oldest first."""

    def open_calls(
        self, desk: str = "", *, but: str = "", skip: int = 0, most: int | None = None
    ) -> tuple[CallLine, ...]:
        """Return open calls, the oldest first.

        Those of one desk, or of all; without those of the desk `but`; `most` of them, after
        `skip` that are not returned [-].
        """

    def open_desks(self) -> dict[str, int]:
        """Return how many open calls lie at each desk at which one lies [-]."""

    def find(self, text: str, most: int = 50) -> tuple[CallLine, ...]:
        """Return calls by number, caller, words, lamp, or part on the sheet; newest first.

        Each word has to stand in it, whatever its capitals and accents; the call of a number
        comes before all others. No text finds all.
        """

    def with_part(self, part: str, most: int | None = None) -> tuple[CallLine, ...]:
        """Return the open calls on whose sheet a part stands (have, lost or route).

        The oldest first; `most` of them [-].
        """

    def closed(self) -> tuple[Call, ...]:
        """Return the closed calls, oldest first; for learning."""

    def erase(self, number: int, who: str, at: datetime) -> Call | Unknown:
        """Erase who called, and every word of theirs.

        Name, contact, address, the caller's words, the place as typed (its elevation stays),
        letter, notes and photographs go, also out of the trail and of the answers given, where
        all goes that stands under ``caller``, ``contact``, ``address``, ``words``, ``place``,
        ``letter``, ``text``, ``reply`` or ``note`` or names the caller; what was asked, found and
        done stays.
        """

    def attach(
        self, number: int, media: str, body: bytes, says: str, who: str, at: datetime
    ) -> Photo | Unknown:
        """Attach a photograph."""

    def photos(self, number: int) -> tuple[Photo, ...]:
        """Return the photographs of a call."""

    def photo(self, call: int, number: int) -> tuple[Photo, bytes] | None:
        """Return one photograph."""

    def give(
        self, number: int, what: str, answer: dict[str, Plain], who: str, at: datetime
    ) -> Given | Unknown:
        """Keep an answer as it went out, under the call's version and revision."""

    def given(self, number: int) -> tuple[Given, ...]:
        """Return every answer that went out, oldest first."""


class Books(Protocol):
    """Revisions of the fit book, kept whole and never changed."""

    def add(self, tables: Sequence[RawTable], name: str, who: str, at: datetime) -> Revision:
        """Keep a book; the same tables again give the same revision."""

    def put_in_force(
        self, revision: str, who: str, reason: str, at: datetime
    ) -> Revision | Unknown:
        """Let a revision hold from now on."""

    def in_force(self) -> Revision | None:
        """Return the revision that holds."""

    def revisions(self) -> tuple[Revision, ...]:
        """Return all, newest first."""

    def tables(self, revision: str) -> tuple[RawTable, ...] | None:
        """Return the tables of a revision as they were loaded."""


class People(Protocol):
    """Who may log in, and who is."""

    def people(self) -> tuple[Person, ...]:
        """Return everybody, by name."""

    def person(self, name: str) -> Person | None:
        """Return somebody by name, capitals disregarded."""

    def put(self, person: Person, who: str, at: datetime) -> Person:
        """Add or change somebody.

        Sessions end when somebody is no longer active or has a new password or role.
        """

    def log_in(self, session: Session) -> None:
        """Keep a session."""

    def session(self, key: str) -> Session | None:
        """Return a session by the hash of its token."""

    def sessions_with(self, form_key: str) -> tuple[Session, ...]:
        """Return the sessions that carry a form key, the newest first."""

    def seen(self, key: str, at: datetime) -> None:
        """Note that a session was used."""

    def log_out(self, key: str) -> None:
        """End a session."""

    def failed(self, name: str, at: datetime) -> None:
        """Note a log-in that failed."""

    def failures(self, name: str, since: datetime) -> int:
        """Count log-ins that failed since a time."""


class Ledger(Protocol):
    """What was refused or done that somebody may have to look into."""

    def note(self, who: str, what: str, where: str, at: datetime) -> None:
        """Write a line."""

    def newest(self, most: int = 200) -> tuple[Noted, ...]:
        """Return lines, newest first."""


class Replies(Protocol):
    """Answers to writes that carry a key, so that a repeated write changes nothing."""

    def kept(self, key: str) -> KeptReply | None:
        """Return what was answered before."""

    def keep(self, reply: KeptReply, at: datetime) -> KeptReply:
        """Keep an answer; return the one kept first where there is one."""


class Store(Protocol):
    """All of it."""

    @property
    def calls(self) -> Calls:
        """Calls and their trails."""

    @property
    def books(self) -> Books:
        """Revisions of the fit book."""

    @property
    def people(self) -> People:
        """Who may log in."""

    @property
    def ledger(self) -> Ledger:
        """What was refused or done."""

    @property
    def replies(self) -> Replies:
        """Answers to keyed writes."""

    def together(self) -> AbstractContextManager[None]:
        """Have all writes of this thread done whole or not at all.

        So a write that carries a key and the answer kept for it cannot be parted.
        """

    def close(self) -> None:
        """Let go of files and connections."""
