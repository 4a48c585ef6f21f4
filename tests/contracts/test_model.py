"""Calls kept in tables against calls kept in a plain list, step by step."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from wickwright.answers.sheet.call_record import Call, Caller, CallState, Closing, Said
from wickwright.answers.sheet.desk_store import NothingToTakeBack, Person, Role, Stale, Unknown

if TYPE_CHECKING:
    from collections.abc import Callable

    import pytest
    from tests.stores.postgres import Cluster

    from wickwright.answers.sheet.desk_store import Store

AT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)
WORDS = st.sampled_from(["", "dim", "Glass", "glass broke", "50 %"])
PARTS = st.lists(st.sampled_from(["CH-1", "ch-1", "MA-2"]), max_size=2).map(tuple)
SHEETS = st.builds(Said, words=WORDS, lamp=WORDS, note=WORDS, have=PARTS, lost=PARTS)
CALLERS = st.builds(Caller, WORDS, WORDS)
WHO = st.sampled_from(["Ann", "Bo"])
NUMBERS = st.integers(0, 4)
BEHIND = st.sampled_from([0, 0, 0, 1])
DESKS = st.sampled_from(["front", "back"])


class CallsInAList:
    """What a store has to do, said as shortly as can be."""

    def __init__(self) -> None:
        self.calls: list[Call] = []
        self.undo: list[list[Said]] = []
        self.dids: list[list[str]] = []

    def begin(self, call: Call) -> Call:
        """Keep a call."""
        self.calls.append(call)
        self.undo.append([])
        self.dids.append(["begun"])
        return call

    def change(self, number: int, version: int, did: str, new: Call | None, who: str) -> object:
        """Put a changed call in the place of the old; None is no change."""
        if not 0 < number <= len(self.calls):
            return Unknown(f"call {number}")
        call = self.calls[number - 1]
        same = new is None or replace(new, adviser=call.adviser, changed=call.changed) == call
        again = same and call.version == version + 1 and call.adviser == who
        if call.version != version and not again:
            return Stale(call)
        if new is None or same:
            return call
        if did == "said":
            self.undo[number - 1].append(call.said)
        self.dids[number - 1].append(did)
        self.calls[number - 1] = replace(new, version=version + 1)
        return self.calls[number - 1]

    def get(self, number: int) -> Call | None:
        """Return a call."""
        return self.calls[number - 1] if 0 < number <= len(self.calls) else None


class Machine(RuleBasedStateMachine):
    """The same steps on both."""

    empty: Callable[[], Store]

    def __init__(self) -> None:
        super().__init__()
        self.store = self.empty()
        self.model = CallsInAList()
        self.now = AT

    def teardown(self) -> None:
        """Close the store."""
        self.store.close()

    def _at(self) -> datetime:
        self.now += timedelta(seconds=1)
        return self.now

    def _version(self, number: int, behind: int) -> int:
        call = self.model.get(number)
        return (call.version if call else 1) - behind

    def _new(self, number: int, who: str, at: datetime, **changes: object) -> Call | None:
        call = self.model.get(number)
        return call and replace(call, adviser=who, changed=at, **changes)  # type: ignore[arg-type]

    @precondition(lambda self: len(self.model.calls) < 4)
    @rule(said=SHEETS, caller=CALLERS, who=WHO, desk=DESKS)
    def begin(self, said: Said, caller: Caller, who: str, desk: str) -> None:
        """Begin a call on both."""
        at, number = self._at(), len(self.model.calls) + 1
        call = Call(number, 1, CallState.OPEN, desk, who, at, at, "book", caller, said)
        found = self.store.calls.begin(
            said, caller, Person(who, Role.ADVISER, desk, ""), "book", at
        )
        assert found == self.model.begin(call)

    @rule(number=NUMBERS, behind=BEHIND, said=SHEETS, who=WHO)
    def save(self, number: int, behind: int, said: Said, who: str) -> None:
        """Save a sheet on both."""
        at, version = self._at(), self._version(number, behind)
        new = self._new(number, who, at, said=said)
        wanted = self.model.change(number, version, "said", new, who)
        assert self.store.calls.save(number, version, said, who, at) == wanted

    @rule(number=NUMBERS, behind=BEHIND, caller=CALLERS, who=WHO)
    def save_caller(self, number: int, behind: int, caller: Caller, who: str) -> None:
        """Save a caller on both."""
        at, version = self._at(), self._version(number, behind)
        new = self._new(number, who, at, caller=caller)
        wanted = self.model.change(number, version, "caller", new, who)
        assert self.store.calls.save_caller(number, version, caller, who, at) == wanted

    @rule(number=NUMBERS, behind=BEHIND, outcome=WORDS, who=WHO)
    def close(self, number: int, behind: int, outcome: str, who: str) -> None:
        """Close on both."""
        at, version, closing = self._at(), self._version(number, behind), Closing(outcome)
        new = self._new(number, who, at, closing=closing, state=CallState.CLOSED)
        wanted = self.model.change(number, version, "closed", new, who)
        assert self.store.calls.close(number, version, closing, who, at) == wanted

    @rule(number=NUMBERS, behind=BEHIND, who=WHO)
    def reopen(self, number: int, behind: int, who: str) -> None:
        """Open again on both."""
        at, version = self._at(), self._version(number, behind)
        new = self._new(number, who, at, closing=None, state=CallState.OPEN)
        wanted = self.model.change(number, version, "opened again", new, who)
        assert self.store.calls.reopen(number, version, who, at) == wanted

    @rule(number=NUMBERS, behind=BEHIND, who=WHO)
    def take_back(self, number: int, behind: int, who: str) -> None:
        """Take a step back on both."""
        at, version, call = self._at(), self._version(number, behind), self.model.get(number)
        found = self.store.calls.take_back(number, version, who, at)
        if call is not None and call.version == version and not self.model.undo[number - 1]:
            assert found == NothingToTakeBack()
            return
        old = self.model.undo[number - 1][-1] if call and self.model.undo[number - 1] else Said()
        stale = call is not None and call.version != version
        if stale or call is None:
            assert found == (Stale(call) if call else Unknown(f"call {number}"))
            return
        self.model.undo[number - 1].pop()
        new = self._new(number, who, at, said=old)
        assert found == self.model.change(number, version, "taken back", new, who)

    @rule(text=WORDS)
    def find(self, text: str) -> None:
        """Find on both."""
        words = text.lower().split()
        wanted = [
            call.number
            for call in reversed(self.model.calls)
            if all(word in _searched(call) for word in words)
        ]
        assert [line.number for line in self.store.calls.find(text)] == wanted

    @rule(part=st.sampled_from(["CH-1", "ma-2", "none"]))
    def with_part(self, part: str) -> None:
        """Find by part on both."""
        wanted = [
            call.number
            for call in self.model.calls
            if call.state is CallState.OPEN and part.lower() in _parts(call)
        ]
        assert [line.number for line in self.store.calls.with_part(part)] == wanted

    @invariant()
    def both_hold_the_same(self) -> None:
        """Compare all that is kept."""
        for call, dids in zip(self.model.calls, self.model.dids, strict=True):
            assert self.store.calls.call(call.number) == call
            trail = self.store.calls.trail(call.number)
            assert [step.did for step in trail] == dids
            assert [step.version for step in trail] == list(range(1, call.version + 1))
        open_calls = [call.number for call in self.model.calls if call.state is CallState.OPEN]
        assert [line.number for line in self.store.calls.open_calls()] == open_calls
        closed = [call for call in self.model.calls if call.state is CallState.CLOSED]
        assert list(self.store.calls.closed()) == closed


def _parts(call: Call) -> set[str]:
    return {part.lower() for part in (*call.said.have, *call.said.lost, *call.said.route)}


def _searched(call: Call) -> str:
    numbers = [call.said.lamp.lower(), *_parts(call)]
    return " ".join((call.caller.name.lower(), call.said.words.lower(), *numbers))


def test_calls_in_tables_do_what_calls_in_a_list_do(
    place: str, request: pytest.FixtureRequest
) -> None:
    """If this fails, some order of steps leaves a call in a state that nobody meant."""
    from itertools import count  # noqa: PLC0415 - only here

    from wickwright.store.opening import open_store  # noqa: PLC0415 - only here

    numbers = count()

    def empty() -> Store:
        if place.startswith("postgresql"):
            server: Cluster = request.getfixturevalue("cluster")
            return open_store(server.emptied())
        return open_store(f"{place}-{next(numbers)}")

    class OnThis(Machine):
        pass

    OnThis.empty = staticmethod(empty)
    run_state_machine_as_test(
        OnThis,
        settings=settings(
            max_examples=15,
            stateful_step_count=20,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )
