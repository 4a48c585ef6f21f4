from __future__ import annotations

from wickwright.fit.search.building import build_tree
from wickwright.fit.search.tree import Admits, Candidate, Socket, Tree

BASE, STEM, HEAD, LEAF = range(4)


def _tree() -> Tree:
    """A base with a stem; a stem with two heads; heads and the stem itself carry leaves.

    Sockets: 0 stem, 1 head, 2 head or leaf, 3 leaf, 4 root.
    """
    candidates = (
        Candidate(BASE, sockets=(0,), rises=(1,)),
        Candidate(STEM, price=9, sockets=(1, 2), rises=(1, 2)),
        Candidate(STEM, price=3, sockets=(1, 2), rises=(5, 6)),
        Candidate(HEAD, price=2, sockets=(3,), rises=(1,), brings=(5,)),
        Candidate(HEAD, price=1),
        Candidate(LEAF, price=1),
        Candidate(LEAF, price=1, bonus=4),
        Candidate(LEAF, price=1, dying=1),
    )
    sockets = (
        Socket(required=True, fits=frozenset({1, 2})),
        Socket(required=True, fits=frozenset({3}), unsure=frozenset({4})),
        Socket(required=False, fits=frozenset({5}), loosened=frozenset({4, 5, 6, 7})),
        Socket(required=False, fits=frozenset({5, 6, 7})),
        Socket(required=True, fits=frozenset({0})),
    )
    return build_tree(candidates, sockets)


def _kinds(bits: int) -> set[int]:
    return {kind for kind in range(4) if bits >> kind & 1}


def test_reach_names_all_that_can_stand_in_or_below() -> None:
    """A part in hand would be forgotten below a class that can hold it."""
    reach = [_kinds(bits) for bits in _tree().reach]
    assert reach == [
        {STEM, HEAD, LEAF},
        {HEAD, LEAF},
        {HEAD, LEAF},
        {LEAF},
        {BASE, STEM, HEAD, LEAF},
    ]


def test_kinds_below_two_sockets_are_watched() -> None:
    """A lamp could carry two parts of one kind in two of its branches."""
    assert _kinds(_tree().doubled) == {HEAD, LEAF}


def test_no_kind_stands_above_itself_here() -> None:
    """The search would guard against a loop that this book does not have."""
    assert _tree().climbing == 0


def test_a_kind_that_can_stand_above_itself_is_seen() -> None:
    """A reducer on a reducer on a reducer would be built without end."""
    candidates = (
        Candidate(BASE, sockets=(0,), rises=(1,)),
        Candidate(STEM, sockets=(0,), rises=(1,)),
    )
    tree = build_tree(candidates, (Socket(required=False, fits=frozenset({1})),))
    assert _kinds(tree.climbing) == {STEM}


def test_equal_shapes_are_grouped_cheapest_first() -> None:
    """What can hang below equal candidates would be worked out for each of them."""
    tree = _tree()
    assert [group.members for group in tree.grouped(0, Admits.FITS)] == [(2, 1)]
    assert [group.members for group in tree.grouped(3, Admits.FITS)] == [(6, 5, 7)]
    assert tree.shapes[1] == tree.shapes[2] != tree.shapes[3]


def test_leniency_lets_in_more() -> None:
    """'Not known' would be answered as 'fits', or a misfit let in unasked."""
    tree = _tree()
    assert tree.members(1, Admits.FITS) == {3}
    assert tree.members(1, Admits.UNSURE) == {3, 4}
    assert tree.members(2, Admits.LOOSE) == {4, 5, 6, 7}
    assert [group.members for group in tree.grouped(1, Admits.UNSURE)] == [(4,), (3,)]


def test_users_are_the_classes_above() -> None:
    """A part in hand would not be tried where it can stand."""
    users = _tree().users
    assert users[5] == {0, 1, 2, 3, 4}
    assert users[6] == {0, 1, 3, 4}
    assert users[0] == {4}
    assert users[4] == {0, 1, 4}
