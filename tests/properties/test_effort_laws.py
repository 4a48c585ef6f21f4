"""A search stops within its effort, as the interpreter counts its work; what it says then holds."""

from __future__ import annotations

import random
import sys
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.demo import demo
from tests.support.toys import random_query, random_tree

from wickwright.answers.flames.flame_lights import lights_at
from wickwright.answers.which_parts import request_of, which_parts
from wickwright.fit.oracle import Oracle
from wickwright.fit.request import claims_of, situation
from wickwright.fit.routes import Gave, Impossible
from wickwright.fit.search.building import build_tree
from wickwright.fit.search.effort import Effort
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.possible import possible
from wickwright.fit.search.query import Aim, Found, GaveUp, Query
from wickwright.fit.search.solve import solve
from wickwright.fit.search.tree import Candidate, Socket, Tree

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import FrameType

    from _typeshed import TraceFunction

    from wickwright.fit.compiled import Compiled

LINES_A_STEP = 3
"""Lines of Python run for each step allowed, at most."""

FIXED = 20_000
"""Lines run whatever is allowed: to lay out the tree and to begin."""

LIGHT = (Aim.PRICE, Aim.BOUGHT, Aim.DYING, Aim.SHORTFALL)


def _lines_run(work: Callable[[], object]) -> int:
    """Count the lines of Python that some work runs."""
    ran = 0

    def trace(_: FrameType, event: str, __: object) -> TraceFunction:
        nonlocal ran
        ran += event == "line"
        return trace

    before = sys.gettrace()
    sys.settrace(trace)
    try:
        work()
    finally:
        sys.settrace(before)
    return ran


def _growing(rng: random.Random, heads: int) -> tuple[Tree, Query]:
    """Make a toy whose labels multiply with every head: what is brighter is dearer."""
    lights = [(1 + at, rng.randint(1, 3000)) for at in range(heads) for _ in range(6)]
    leaves = [
        Candidate(
            kind=kind,
            price=300 * light + rng.randint(0, 300),
            bonus=light,
            mass=rng.randint(1, 1 << 12),
            centre=rng.randint(1, 40),
        )
        for kind, light in lights
    ]
    base = Candidate(kind=0, sockets=tuple(range(heads)), rises=(9,) * heads, mass=1 << 14)
    sockets = [Socket(True, frozenset(range(1 + 6 * at, 7 + 6 * at))) for at in range(heads)]  # noqa: FBT003 - required
    tree = build_tree((base, *leaves), (*sockets, Socket(True, frozenset({0}))))  # noqa: FBT003 - required
    size = len(tree.candidates)
    able = b"\x01" * size
    query = Query(heads, (0,), able, able, (0,) * (heads + 1), pivots={0: 45}, aims=LIGHT)
    return tree, query


@pytest.mark.parametrize("limit", [20_000, 100_000, 300_000])
def test_labels_that_grow_past_all_measure_stop_at_the_limit(limit: int) -> None:
    """A call would run for minutes while the count of effort stands still."""
    tree, query = _growing(random.Random(3), 12)
    memory, effort = Memory(tree), Effort(limit)
    ran = _lines_run(lambda: solve(memory, query, effort))
    assert effort.spent <= limit
    assert effort.spent > limit // 2
    assert ran <= LINES_A_STEP * limit + FIXED
    assert isinstance(solve(Memory(tree), query, Effort(limit)), GaveUp)


@settings(deadline=None, max_examples=40)
@given(st.integers(0, 10**9), st.integers(0, 60_000))
def test_no_search_does_more_than_its_effort_allows(seed: int, limit: int) -> None:
    """A kind of work that nobody counts would let a call run away."""
    rng = random.Random(seed)
    tree = random_tree(rng, 4)
    query = random_query(rng, tree)
    for ask in (solve, possible):
        memory, effort = Memory(tree), Effort(limit)
        ran = _lines_run(lambda ask=ask, memory=memory, effort=effort: ask(memory, query, effort))  # type: ignore[misc]
        assert effort.spent <= limit
        assert ran <= LINES_A_STEP * limit + FIXED


@settings(deadline=None, max_examples=40)
@given(st.integers(0, 10**9), st.integers(0, 60_000))
def test_a_search_that_stops_leaves_nothing_half_done_behind(seed: int, limit: int) -> None:
    """The next answer from the same book would lack ways that the stopped search did not reach."""
    rng = random.Random(seed)
    tree = random_tree(rng, 4)
    query = random_query(rng, tree)
    used = Memory(tree)
    solve(used, query, Effort(limit))
    possible(used, query, Effort(limit))
    after, fresh = solve(used, query), solve(Memory(tree), query)
    assert isinstance(after, Found)
    assert isinstance(fresh, Found)
    assert [way.costs for way in after.ways] == [way.costs for way in fresh.ways]


def _with_effort(limit: int) -> Compiled:
    return replace(demo(), settings=replace(demo().settings, effort=limit))


@pytest.mark.parametrize("limit", [0, 100_000, 400_000, 1_500_000])
def test_a_reason_found_in_haste_is_one_all_the_same(limit: int) -> None:
    """What does not stand in the way would be named as what does, without a word of doubt."""
    hasty = which_parts(_with_effort(limit), "TY-103", "much-brighter")
    if isinstance(hasty, Gave):
        assert hasty.looked_at <= limit
        return
    assert isinstance(hasty, Impossible)
    request = request_of(demo(), "TY-103", "much-brighter")
    patient = Oracle(demo(), situation(demo(), request, lights_at(demo(), request.place)))
    patient.effort = Effort(10**9)
    assert not patient(hasty.because)
    if hasty.complete:
        for claim in hasty.because:
            assert patient([one for one in hasty.because if one != claim])
    assert not patient.gave_up


def test_the_effort_of_a_reason_is_one_for_all_questions() -> None:
    """A reason asks hundreds of questions; each within its limit, they would take minutes."""
    request = request_of(demo(), "TY-103", "much-brighter")
    now = situation(demo(), request, lights_at(demo(), request.place))
    holds = Oracle(_with_effort(300_000), now)
    for lost in range(40):
        holds([claim for at, claim in enumerate(claims_of(demo(), now)) if at != lost])
    assert holds.effort.spent <= 300_000
    assert holds.gave_up
