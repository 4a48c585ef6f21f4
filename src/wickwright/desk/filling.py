"""What a new store begins with: a fit book in force, calls to try, a first lead."""

from __future__ import annotations

import json
from datetime import timedelta
from typing import TYPE_CHECKING

from wickwright.answers.sheet.call_record import Caller, read_said
from wickwright.answers.sheet.desk_store import Person, Role
from wickwright.answers.sheet.one_line import one_line

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from datetime import datetime

    from wickwright.answers.sheet.desk_store import Revision, Store
    from wickwright.catalogue.faults import RawTable
    from wickwright.desk.passwords import Passwords

__all__ = ["begin_book", "begin_calls", "let_in"]

_PROGRAM = "wickwright"


def begin_book(store: Store, tables: Sequence[RawTable], name: str, at: datetime) -> Revision:
    """Put a first fit book in force.

    Parameters
    ----------
    store : Store
        Without a book in force.
    tables : sequence of RawTable
        Of a book without faults.
    name : str
        What it is called.
    at : datetime
        In UTC.

    Returns
    -------
    Revision
        In force.
    """
    revision = store.books.add(tables, name, _PROGRAM, at)
    put = store.books.put_in_force(revision.id, _PROGRAM, "the first book of this store", at)
    return put if not hasattr(put, "what") else revision


def begin_calls(
    store: Store, lines: Iterable[str], who: Person, revision: str, now: datetime
) -> int:
    """Begin the calls of a file, each as long ago as it says.

    Parameters
    ----------
    store : Store
        To hold them.
    lines : iterable of str
        JSON: ``hours_ago``, ``caller``, ``said``.
    who : Person
        Who took them.
    revision : str
        Under which fit book.
    now : datetime
        In UTC.

    Returns
    -------
    int
        How many [-].
    """
    told = sorted((json.loads(line) for line in lines), key=lambda one: -one["hours_ago"])
    for one in told:
        at = now - timedelta(hours=one["hours_ago"])
        store.calls.begin(read_said(one["said"]), Caller(**one["caller"]), who, revision, at)
    return len(told)


def let_in(
    store: Store,
    passwords: Passwords,
    token: Callable[[], str],
    name: str,
    desk: str,
    at: datetime,
) -> str:
    """Let somebody in as a lead, once, by a secret.

    Parameters
    ----------
    store : Store
        To hold them.
    passwords : Passwords
        Makes the hash.
    token : callable
        A new secret.
    name, desk : str
        Who, and where they sit.
    at : datetime
        In UTC.

    Returns
    -------
    str
        The secret; only its hash is kept.
    """
    secret = token()[:24]
    lead = Person(one_line(name), Role.LEAD, one_line(desk), passwords.for_once(secret))
    store.people.put(lead, _PROGRAM, at)
    return secret
