from __future__ import annotations

from dataclasses import replace

import pytest

from wickwright.fit.search.building import build_tree
from wickwright.fit.search.effort import PLACING, Effort
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.possible import possible
from wickwright.fit.search.query import Aim, Found, GaveUp, How, Query
from wickwright.fit.search.solve import solve, stands
from wickwright.fit.search.tree import UNKNOWN, Admits, Candidate, Load, Socket, Tree

BASE, STEM, LEAF, HAT = range(4)
KIT, PLAIN, CHEAP, GOOD, ODD, TALL, LIGHT = range(1, 8)


def _tree() -> Tree:
    """A base with a stem; the stem carries a leaf, and may carry a hat."""
    candidates = (
        Candidate(BASE, price=10, sockets=(0,), rises=(10,), mass=10),
        Candidate(
            STEM, price=9, sockets=(1, 2), rises=(5, 5), brings=(GOOD,), demands=(2,), mass=1
        ),
        Candidate(STEM, price=4, sockets=(1, 2), rises=(5, 5), demands=(2,), mass=1),
        Candidate(LEAF, price=1, gives=(1,), mass=1),
        Candidate(LEAF, price=6, gives=(2,), bonus=3, mass=1),
        Candidate(LEAF, price=2, gives=(UNKNOWN,), mass=1),
        Candidate(HAT, price=2, mass=9, centre=4),
        Candidate(HAT, price=7, mass=2, centre=4, dying=1),
    )
    sockets = (
        Socket(required=True, fits=frozenset({KIT, PLAIN}), atom=1),
        Socket(
            required=True,
            fits=frozenset({CHEAP, GOOD, ODD}),
            loosened=frozenset({CHEAP, GOOD, ODD}),
            atom=2,
        ),
        Socket(
            required=False, fits=frozenset({TALL, LIGHT}), loosened=frozenset({TALL, LIGHT}), atom=3
        ),
        Socket(required=True, fits=frozenset({0})),
    )
    return build_tree(candidates, sockets)


TREE = _tree()
ALL = bytes([1] * 8)
HATTED = 1 << HAT
PLAIN_QUERY = Query(root=3, owned=(0,), buyable=ALL, usable=ALL, masks=(0,) * 4)


def _without(*numbers: int) -> bytes:
    return bytes(number not in numbers for number in range(8))


def _asked(query: Query) -> list[tuple[int, ...]]:
    outcome = solve(Memory(TREE), query)
    assert isinstance(outcome, Found)
    assert possible(Memory(TREE), query) is bool(outcome.ways)
    return [way.costs[:3] for way in outcome.ways]


def test_the_cheapest_that_bears_the_demand() -> None:
    """A leaf that does not bear what the stem demands would be taken for its price."""
    assert _asked(PLAIN_QUERY) == [(9, 1, 0)]


def test_what_comes_with_a_kit_costs_nothing() -> None:
    """A kit would be charged with what is in it."""
    outcome = solve(Memory(TREE), PLAIN_QUERY)
    assert isinstance(outcome, Found)
    (way,) = outcome.ways
    good = (GOOD, How.INCLUDED, ())
    assert way.root == (0, How.KEPT, ((KIT, How.BOUGHT, (good, None)),))


def test_a_kit_in_hand_is_empty() -> None:
    """What came with a kit long ago would be counted as still there."""
    assert _asked(replace(PLAIN_QUERY, owned=(0, KIT))) == [(6, 1, 0)]


def test_what_a_kit_brings_must_be_usable() -> None:
    """A part that the wish forbids would slip in with a kit."""
    barred = replace(PLAIN_QUERY, buyable=_without(GOOD), usable=_without(GOOD), masks=(1,) * 4)
    assert _asked(barred) == []


def test_a_demand_switched_off_binds_no_more() -> None:
    """A law that is given up would still bind."""
    assert _asked(replace(PLAIN_QUERY, scales=((0, 1),))) == [(5, 2, 0), (9, 1, 0)]


def test_a_demand_is_rounded_up() -> None:
    """A demand scaled to a part of a unit would be rounded in favour of what is too weak."""
    assert _asked(replace(PLAIN_QUERY, scales=((1, 2),))) == [(5, 2, 0), (9, 1, 0)]
    assert _asked(replace(PLAIN_QUERY, scales=((501, 1000),))) == [(9, 1, 0)]
    assert _asked(replace(PLAIN_QUERY, scales=((1001, 1000),))) == []


def test_what_is_not_known_is_let_in_only_where_asked() -> None:
    """A leaf of which nobody knows what it bears would be taken as sure."""
    unsure = replace(PLAIN_QUERY, admits=Admits.UNSURE, masks=(1,) * 4)
    assert _asked(unsure) == [(6, 2, 0), (9, 1, 0)]


def test_demands_on_the_whole_of_which_one_set_must_be_met() -> None:
    """A set of demands that nothing meets would forbid what another set allows."""
    none, some = (3,), (1,)
    assert _asked(replace(PLAIN_QUERY, openings=(none,))) == []
    assert _asked(replace(PLAIN_QUERY, openings=(none, some))) == [(9, 1, 0)]


def test_an_optional_place_is_filled_only_where_asked() -> None:
    """A hat would be sold unasked, or not sold when asked for."""
    assert _asked(replace(PLAIN_QUERY, required=HATTED)) == [(11, 2, 0)]


def test_the_second_best_is_shown_where_it_is_better_in_something() -> None:
    """A dearer way with less that is dying would be hidden."""
    dying = replace(PLAIN_QUERY, owned=(0, LIGHT), required=HATTED)
    assert _asked(dying) == [(9, 1, 1), (11, 2, 0)]


def test_limits_on_costs() -> None:
    """A way would be shown that costs more than allowed."""
    limit = replace(PLAIN_QUERY, required=HATTED, most={Aim.PRICE: 11})
    assert _asked(limit) == [(11, 2, 0)]
    assert _asked(replace(limit, most={Aim.PRICE: 10})) == []


def test_bonus_is_maximised_where_asked() -> None:
    """More light would not be sought, or be bought where nobody asked."""
    aims = (Aim.PRICE, Aim.SHORTFALL)
    query = replace(PLAIN_QUERY, aims=aims, scales=((0, 1),))
    outcome = solve(Memory(TREE), query)
    assert isinstance(outcome, Found)
    assert [(way.costs[0], way.costs[3]) for way in outcome.ways] == [(5, 0), (9, -3)]


def _steady(pivot: int) -> Query:
    return replace(PLAIN_QUERY, required=HATTED, pivots={0: pivot})


def test_the_lighter_hat_where_the_heavy_one_tips() -> None:
    """A way that falls over would be shown, or the next best that stands be hidden."""
    # leverage about the pivot p of base, stem, leaf and hat: -10p + (10-p) + (15-p) + m(19-p)
    heavy, light = 25 + 9 * 19, 25 + 2 * 19
    assert _asked(_steady(-(-heavy // 21))) == [(11, 2, 0)]
    assert _asked(_steady(heavy // 21)) == [(16, 2, 1)]
    assert _asked(_steady(-(-light // 14))) == [(16, 2, 1)]
    assert _asked(_steady(light // 14)) == []


def test_a_root_without_a_pivot_does_not_tip() -> None:
    """A lamp that hangs would be refused for tipping."""
    assert _asked(replace(_steady(0), pivots={5: 0})) == [(11, 2, 0)]


def test_a_root_in_hand_that_cannot_be_filled_is_passed_over() -> None:
    """A lamp that tips would end in an error where the caller's own base takes nothing on sale."""
    candidates = (
        Candidate(BASE, sockets=(0, 1), rises=(1, 1)),
        Candidate(BASE, dying=1, sockets=(2,), rises=(1,), mass=1, centre=9),
        Candidate(BASE, price=5, mass=1),
        Candidate(STEM, price=1, sockets=(2,), rises=(1,)),
        Candidate(LEAF, price=1),
        Candidate(BASE, price=3, dying=1, mass=1),
    )
    sockets = (
        Socket(required=True, fits=frozenset({3})),
        Socket(required=True, fits=frozenset()),
        Socket(required=True, fits=frozenset({4})),
        Socket(required=True, fits=frozenset({0, 1, 2, 5})),
    )
    pivots = dict.fromkeys((0, 1, 2, 5), 5)
    everything = bytes([1] * 6)
    query = Query(3, (0,), everything, everything, (0,) * 4, pivots=pivots)
    outcome = solve(Memory(build_tree(candidates, sockets)), query)
    assert isinstance(outcome, Found)
    assert [way.costs[:3] for way in outcome.ways] == [(3, 1, 1), (5, 1, 0)]


def test_balance_is_that_of_the_placed_tree() -> None:
    """Whether a way stands would not be told by its own weights."""
    query = _steady(10)
    heavy = (0, 0, ((KIT, 1, ((GOOD, 2, ()), (TALL, 1, ()))),))
    assert stands(TREE, query, heavy)
    assert not stands(TREE, _steady(9), heavy)
    assert stands(TREE, replace(query, pivots={}), heavy)


def test_a_varying_load_counts_unless_dry() -> None:
    """Fuel would be left out where it tips, or counted where there is none."""
    loads = (Load(0, 0), Load(20, 3))
    base = replace(TREE.candidates[0], sockets=(), rises=(), mass=0, loads=loads)
    tree = build_tree((base,), (Socket(required=True, fits=frozenset({0})),))
    query = Query(0, (0,), b"\x01", b"\x01", (0,), pivots={0: 2})
    for dry, ways in ((False, 0), (True, 1)):
        asked = replace(query, dry=dry)
        outcome = solve(Memory(tree), asked)
        assert isinstance(outcome, Found)
        assert len(outcome.ways) == ways
        assert possible(Memory(tree), asked) is bool(ways)


@pytest.mark.parametrize("effort", [0, PLACING, 3 * PLACING])
def test_a_search_out_of_effort_says_so(effort: int) -> None:
    """A search that stopped early would claim that it knows."""
    outcome = solve(Memory(TREE), replace(_steady(9), effort=effort))
    assert isinstance(outcome, GaveUp)
    assert outcome.looked_at <= effort


@pytest.mark.parametrize("limits", [{}, {Aim.PRICE: 99}])
def test_giving_up_is_neither_possible_nor_impossible(limits: dict[Aim, int]) -> None:
    """A search that stopped early would be taken for proof that nothing can be done."""
    tired = replace(PLAIN_QUERY, effort=0, aims=tuple(limits), most=limits)
    assert possible(Memory(TREE), tired) == GaveUp(0)
    assert possible(Memory(TREE), replace(tired, effort=99 * PLACING)) is True


def test_effort_is_counted_without_balance_too() -> None:
    """A search could go on without end where nothing can tip."""
    assert solve(Memory(TREE), replace(PLAIN_QUERY, effort=0)) == GaveUp(0)


def test_effort_of_both_searches_is_one() -> None:
    """The search would look twice as long as it was told before it gives up."""
    asked = _steady(9)
    both, plain = Effort(10**6), Effort(10**6)
    assert isinstance(solve(Memory(TREE), asked, both), Found)
    assert isinstance(solve(Memory(TREE), replace(asked, pivots={}), plain), Found)
    assert both.spent > plain.spent > PLACING
    assert isinstance(solve(Memory(TREE), asked, Effort(both.spent)), Found)
    assert solve(Memory(TREE), asked, Effort(plain.spent)) == GaveUp(plain.spent)


def test_a_misfit_given_up_lets_any_of_the_kind_in() -> None:
    """'If it fitted' could not be answered."""
    strict = replace(TREE.sockets[1], fits=frozenset({CHEAP}))
    sockets = (TREE.sockets[0], strict, *TREE.sockets[2:])
    tree = build_tree(TREE.candidates, sockets)
    outcome = solve(Memory(tree), PLAIN_QUERY)
    assert outcome == Found(())
    loose = solve(Memory(tree), replace(PLAIN_QUERY, loose=frozenset({2})))
    assert isinstance(loose, Found)
    assert [way.costs[:3] for way in loose.ways] == [(9, 1, 0)]


def test_no_kind_is_placed_twice() -> None:
    """A lamp would carry two parts of a kind, each in another branch."""
    candidates = (
        Candidate(BASE, sockets=(0, 0), rises=(1, 1)),
        Candidate(STEM, price=5),
    )
    tree = build_tree(
        candidates,
        (Socket(required=True, fits=frozenset({1})), Socket(required=True, fits=frozenset({0}))),
    )
    query = Query(1, (), b"\x01\x01", b"\x01\x01", (0, 0))
    assert solve(Memory(tree), query) == Found(())
    assert not possible(Memory(tree), query)


def test_a_thing_in_hand_is_used_once() -> None:
    """One part in hand would fill two places."""
    candidates = (
        Candidate(BASE, sockets=(0, 1), rises=(1, 1)),
        Candidate(STEM, price=5, sockets=(2,), rises=(1,)),
        Candidate(HAT, price=7, sockets=(2,), rises=(1,)),
        Candidate(LEAF, price=1),
    )
    sockets = tuple(Socket(required=True, fits=frozenset({number})) for number in (1, 2, 3, 0))
    tree = build_tree(candidates, sockets)
    query = Query(3, (0, 1, 2, 3), bytes(4), bytes([1] * 4), (0,) * 4)
    assert solve(Memory(tree), query) == Found(())
