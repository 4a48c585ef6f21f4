"""Several writers at once: one wins, the others are told, nothing is lost."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime
from threading import Barrier
from typing import TYPE_CHECKING, TypeVar

from wickwright.answers.sheet.call_record import Call, Caller, Said
from wickwright.answers.sheet.desk_store import KeptReply, Person, Role, Stale
from wickwright.store.opening import open_store

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.answers.sheet.desk_store import Store

AT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)
ANN = Person("Ann", Role.ADVISER, "front", "")
Found = TypeVar("Found")
THREADS, WRITES, TRIES = 20, 20, 10


def all_at_once(many: int, do: Callable[[int], Found]) -> list[Found]:
    """Do something in as many threads, begun together."""
    ready = Barrier(many)

    def begin(which: int) -> Found:
        ready.wait()
        return do(which)

    with ThreadPoolExecutor(many) as threads:
        return list(threads.map(begin, range(many)))


def test_of_two_who_save_at_once_one_wins_and_the_other_is_told_by_whom(store: Store) -> None:
    """If this fails, one of two advisers loses what was typed and does not know it."""
    names = ("Ann", "Bo")
    for number in range(1, TRIES + 1):
        store.calls.begin(Said(), Caller(), ANN, "book", AT)

        def save(which: int, number: int = number) -> object:
            return store.calls.save(number, 1, Said(words=names[which]), names[which], AT)

        found = all_at_once(2, save)
        (won,) = (one for one in found if isinstance(one, Call))
        (lost,) = (one for one in found if isinstance(one, Stale))
        assert lost.now == won == store.calls.call(number)
        assert won.adviser == won.said.words == names[found.index(won)]
        assert [one.did for one in store.calls.trail(number)] == ["begun", "said"]


def test_twenty_desks_with_twenty_writes_each_lose_nothing(store: Store) -> None:
    """If this fails, a busy morning loses calls, or turns advisers away."""

    def write(which: int) -> list[int]:
        return [
            store.calls.begin(Said(words=f"{which}/{at}"), Caller(), ANN, "book", AT).number
            for at in range(WRITES)
        ]

    numbers = [number for found in all_at_once(THREADS, write) for number in found]
    assert sorted(numbers) == list(range(1, THREADS * WRITES + 1))
    words = {line.words for line in store.calls.open_calls()}
    assert words == {f"{which}/{at}" for which in range(THREADS) for at in range(WRITES)}


def test_every_change_of_one_call_is_counted_once(store: Store) -> None:
    """If this fails, two changes stand under one version, and one of them is hidden."""
    store.calls.begin(Said(count=0), Caller(), ANN, "book", AT)

    def add_one(which: int) -> None:
        for _ in range(5):
            while True:
                call = store.calls.call(1)
                assert call is not None
                more = Said(count=call.said.count + 1)
                found = store.calls.save(1, call.version, more, str(which), AT)
                if isinstance(found, Call):
                    break

    all_at_once(6, add_one)
    call = store.calls.call(1)
    assert call is not None
    assert (call.said.count, call.version) == (30, 31)
    assert [one.version for one in store.calls.trail(1)] == list(range(1, 32))


def test_of_repeated_writes_one_answer_is_kept(store: Store) -> None:
    """If this fails, an order sent twice at once is answered in two ways."""

    def keep(which: int) -> KeptReply:
        return store.replies.keep(KeptReply("key", "print", 200, bytes([which])), AT)

    found = set(all_at_once(8, keep))
    assert len(found) == 1
    assert found == {store.replies.kept("key")}


def test_one_name_is_added_once_though_many_add_it(store: Store) -> None:
    """If this fails, adding a person at two desks ends in a fault."""
    people = [Person(name, Role.ADVISER, "front", "") for name in ("ann", "ANN", "Ann", "aNN")]
    all_at_once(4, lambda which: store.people.put(people[which], "Lea", AT))
    (kept,) = store.people.people()
    assert kept in people


def test_a_second_program_writes_to_the_same_store(place: str) -> None:
    """If this fails, a backup or a second server turns the desk's advisers away."""
    stores = [open_store(place) for _ in range(3)]

    def write(which: int) -> None:
        for _ in range(WRITES):
            stores[which].ledger.note(str(which), "wrote", "", AT)

    all_at_once(3, write)
    assert len(stores[0].ledger.newest(1000)) == 3 * WRITES
    for store in stores:
        store.close()


def test_readers_do_not_wait_for_a_writer(store: Store) -> None:
    """If this fails, every page stands still while one adviser saves."""
    call = store.calls.begin(Said(), Caller(), ANN, "book", AT)
    with store.together():
        store.calls.save(1, 1, Said(words="dim"), "Ann", AT)
        with ThreadPoolExecutor(1) as threads:
            assert threads.submit(store.calls.call, 1).result(timeout=10) == call
    assert store.calls.call(1) != call
