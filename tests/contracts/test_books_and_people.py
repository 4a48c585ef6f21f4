"""What every store does with fit books, people, sessions, ledger and keyed writes."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.support.command import DEMO_BOOK

from wickwright.answers.sheet.desk_store import KeptReply, Noted, Person, Role, Session, Unknown
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.store.book_text import pack_tables, revision_id, unpack_tables
from wickwright.store.tables import read_tables

if TYPE_CHECKING:
    from wickwright.answers.sheet.desk_store import Store

AT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)
LATER = AT + timedelta(minutes=7)
LAMPS = RawTable("lamps", ("lamp", "name"), ((2, ("L-1", "Shelf")), (4, ("L-2", ""))))
PARTS = RawTable(
    "parts", ("part",), ((2, ("P-1",)),), (Fault("parts", 2, "part", "odd", "mend it", doubt=True),)
)
ANN = Person("Ann", Role.ADVISER, "front", "hash-1")
SESSION = Session("k" * 64, "Ann", AT, AT, "form")

CELLS = st.text(max_size=6)
TABLES = st.lists(
    st.builds(
        RawTable,
        CELLS,
        st.lists(CELLS, max_size=3).map(tuple),
        st.lists(
            st.tuples(st.integers(2, 9), st.lists(CELLS, max_size=3).map(tuple)), max_size=3
        ).map(tuple),
        st.lists(
            st.builds(Fault, CELLS, st.integers(0, 9), CELLS, CELLS, CELLS, st.booleans()),
            max_size=2,
        ).map(tuple),
    ),
    max_size=3,
).map(tuple)


# -- books ---------------------------------------------------------------------------------------


@given(TABLES)
def test_tables_come_back_from_their_bytes_as_they_were(tables: tuple[RawTable, ...]) -> None:
    """If this fails, an answer cannot be shown again as it was."""
    assert unpack_tables(pack_tables(tables)) == tables


@given(TABLES, TABLES)
def test_only_the_same_tables_have_the_same_name(
    one: tuple[RawTable, ...], other: tuple[RawTable, ...]
) -> None:
    """If this fails, a changed book is taken for the one that was there."""
    same = sorted(map(repr, one)) == sorted(map(repr, other))
    if len({table.name for table in one}) == len(one):
        assert (revision_id(one) == revision_id(other)) is same
        assert revision_id(one[::-1]) == revision_id(one)


def test_a_book_is_kept_once_and_read_back_as_it_was(store: Store) -> None:
    """If this fails, a book loaded twice stands twice, or its rows lose their numbers."""
    revision = store.books.add((PARTS, LAMPS), "spring", "Ann", AT)
    assert len(revision.id) == 16
    assert (revision.loaded, revision.who, revision.name) == (AT, "Ann", "spring")
    assert (revision.in_force, revision.signed, revision.reason) == (None, "", "")
    assert store.books.add((LAMPS, PARTS), "again", "Bo", LATER) == revision
    assert store.books.revisions() == (revision,)
    assert store.books.tables(revision.id) == (PARTS, LAMPS)
    assert store.books.tables("0" * 16) is None


def test_the_demo_book_comes_back_whole(store: Store) -> None:
    """If this fails, the desk answers from another book than the command line."""
    tables = read_tables(Path(DEMO_BOOK))
    raw = tuple(table for table in tables if isinstance(table, RawTable))
    assert store.books.tables(store.books.add(raw, "demo", "Ann", AT).id) == tables


def test_the_revision_put_in_force_last_holds(store: Store) -> None:
    """If this fails, the desk answers from a book that nobody put in force."""
    assert store.books.in_force() is None
    one = store.books.add((LAMPS,), "one", "Ann", AT)
    other = store.books.add((PARTS,), "other", "Ann", AT)
    assert store.books.in_force() is None
    assert store.books.put_in_force("0" * 16, "Lea", "why", AT) == Unknown(
        "revision 0000000000000000"
    )
    for revision, at in ((one, AT), (other, AT), (one, LATER)):
        found = store.books.put_in_force(revision.id, "Lea", f"since {at}", at)
        assert not isinstance(found, Unknown)
        assert (found.in_force, found.signed, found.reason) == (at, "Lea", f"since {at}")
        assert store.books.in_force() == found
    assert [(kept.name, kept.in_force) for kept in store.books.revisions()] == [
        ("other", AT),
        ("one", LATER),
    ]


# -- people --------------------------------------------------------------------------------------


def test_somebody_is_known_whatever_the_capitals(store: Store) -> None:
    """If this fails, two people of one name log in, or nobody does."""
    store.people.put(ANN, "Lea", AT)
    store.people.put(Person("bo", Role.LEAD, "back", "h"), "Lea", AT)
    store.people.put(Person("Ánn", Role.PLANNER, "front", "h"), "Lea", AT)
    assert store.people.person("aNN") == ANN
    changed = Person("ANN", Role.INSPECTOR, "bench", "hash-2", active=False)
    assert store.people.put(changed, "Lea", AT) == changed
    assert store.people.person("ann") == changed
    assert [one.name for one in store.people.people()] == ["ANN", "Ánn", "bo"]
    assert store.people.person("nobody") is None
    assert store.ledger.newest(1) == (Noted(AT, "Lea", "person changed", "ANN"),)


def test_a_session_lasts_until_it_is_ended(store: Store) -> None:
    """If this fails, an adviser is thrown out, or stays in after logging out."""
    store.people.put(ANN, "Lea", AT)
    store.people.log_in(SESSION)
    assert store.people.session(SESSION.key) == SESSION
    store.people.seen(SESSION.key, LATER)
    kept = store.people.session(SESSION.key)
    assert kept is not None
    assert (kept.began, kept.seen) == (AT, LATER)
    store.people.log_out(SESSION.key)
    assert store.people.session(SESSION.key) is None
    store.people.seen("unknown", LATER)
    store.people.log_out("unknown")
    assert store.people.session("unknown") is None


@pytest.mark.parametrize(
    "changed",
    [
        Person("ANN", Role.ADVISER, "front", "hash-2"),
        Person("Ann", Role.LEAD, "front", "hash-1"),
        Person("Ann", Role.ADVISER, "front", "hash-1", active=False),
    ],
)
def test_sessions_end_with_a_new_password_or_role(store: Store, changed: Person) -> None:
    """If this fails, whoever stole a session keeps it after the password was changed."""
    store.people.put(ANN, "Lea", AT)
    store.people.log_in(SESSION)
    other = Session("o" * 64, "Bo", AT, AT, "form")
    store.people.log_in(other)
    store.people.put(Person("Ann", Role.ADVISER, "back", "hash-1"), "Lea", AT)
    assert store.people.session(SESSION.key) == SESSION
    store.people.put(changed, "Lea", AT)
    assert store.people.session(SESSION.key) is None
    assert store.people.session(other.key) == other


def test_sessions_nobody_used_for_a_month_are_cleared_away(store: Store) -> None:
    """If this fails, a cookie found on an old disk still logs in."""
    store.people.log_in(SESSION)
    store.people.log_in(Session("b" * 64, "Bo", AT + timedelta(days=31), LATER, "form"))
    assert store.people.session(SESSION.key) is None


def test_sessions_are_found_by_the_key_they_carry(store: Store) -> None:
    """If this failed, a lead could not see which programs may ask, and end one."""
    store.people.put(ANN, "Lena", AT)
    older = replace(SESSION, key="a" * 64, form_key="of a program")
    newer = replace(older, key="b" * 64, began=LATER, seen=LATER)
    for one in (older, SESSION, newer):
        store.people.log_in(one)
    assert store.people.sessions_with("of a program") == (newer, older)
    store.people.seen(older.key, LATER)
    store.people.log_out(newer.key)
    assert store.people.sessions_with("of a program") == (replace(older, seen=LATER),)
    assert store.people.session(SESSION.key) == SESSION
    assert store.people.sessions_with("of nobody") == ()


def test_failed_log_ins_are_counted_by_name_and_time(store: Store) -> None:
    """If this fails, passwords can be tried without end, or the wrong person is held up."""
    for name, at in (("Ann", AT), ("ANN", LATER), ("bo", LATER), ("x" * 100_000, AT)):
        store.people.failed(name, at)
    assert store.people.failures("ann", AT) == 2
    assert store.people.failures("ann", AT + timedelta(microseconds=1)) == 1
    assert store.people.failures("bo", LATER + timedelta(seconds=1)) == 0
    assert store.people.failures("x" * 100_000, AT) == 1


# -- the rest ------------------------------------------------------------------------------------


def test_the_ledger_tells_the_newest_first(store: Store) -> None:
    """If this fails, what was refused last is not seen."""
    for what in "abc":
        store.ledger.note("Ann", what, "/calls/1", AT)
    assert [line.what for line in store.ledger.newest()] == ["c", "b", "a"]
    assert store.ledger.newest(1) == (Noted(AT, "Ann", "c", "/calls/1"),)


def test_the_answer_kept_first_is_given_again(store: Store) -> None:
    """If this fails, a repeated order is taken twice."""
    first = KeptReply("key-" + "x" * 5000, "print", 201, b"\0\xffbody")
    assert store.replies.kept(first.key) is None
    assert store.replies.keep(first, AT) == first
    assert store.replies.keep(KeptReply(first.key, "other", 200, b""), LATER) == first
    assert store.replies.kept(first.key) == first
    assert store.replies.kept(first.key.upper()) is None
    store.replies.keep(KeptReply("new", "print", 200, b""), AT + timedelta(days=8))
    assert store.replies.kept(first.key) is None
