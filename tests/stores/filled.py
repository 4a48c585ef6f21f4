"""A store with something in every table."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from wickwright.answers.sheet.call_record import Caller, Closing, Said
from wickwright.answers.sheet.desk_store import KeptReply, Person, Role, Session
from wickwright.catalogue.faults import RawTable

if TYPE_CHECKING:
    from wickwright.answers.sheet.desk_store import Store

__all__ = ["ANN", "AT", "LATER", "fill"]

AT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)
LATER = AT + timedelta(minutes=7)
ANN = Person("Ann", Role.ADVISER, "front", "hash")


def fill(store: Store, calls: int = 3) -> None:
    """Put something into every table."""
    store.people.put(ANN, "Lea", AT)
    store.people.log_in(Session("k" * 64, "Ann", AT, AT, "form"))
    store.people.failed("bo", AT)
    book = store.books.add((RawTable("lamps", ("lamp",), ((2, ("L-1",)),)),), "spring", "Lea", AT)
    store.books.put_in_force(book.id, "Lea", "first", AT)
    store.replies.keep(KeptReply("key", "print", 200, b"\0\xff"), AT)
    for at in range(calls):
        said = Said(words=f"grün {at}", elevation=0.1, have=("CH-1",), events=({"a": [None]},))
        call = store.calls.begin(said, Caller(f"Ida {at}", "555", "Quay"), ANN, book.id, AT)
        store.calls.save(call.number, 1, Said(words="smells", lost=("CH-1",)), "Bo", LATER)
        store.calls.attach(call.number, "image/png", bytes(range(256)), "foot", "Bo", LATER)
        store.calls.give(call.number, "order", {"lines": [at]}, "Bo", LATER)
    store.calls.close(1, 2, Closing("it burns", ("carbon",)), "Bo", LATER)
