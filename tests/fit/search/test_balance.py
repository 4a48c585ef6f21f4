from __future__ import annotations

from wickwright.fit.search.balance import leverage_of, share
from wickwright.fit.search.building import build_tree
from wickwright.fit.search.tree import Candidate, Load, Socket

FOOT = Candidate(kind=0, sockets=(0,), rises=(10,), mass=5, centre=2)
HEAD = Candidate(kind=1, mass=2, centre=3, loads=(Load(0, 0), Load(4, 1)))


def test_a_share_is_mass_times_lever_arm() -> None:
    """A part would count at its foot instead of its centre of mass."""
    assert share(FOOT, -4, dry=False) == 5 * (-4 + 2)


def test_the_worst_load_counts() -> None:
    """A lamp would be weighed with the filling that steadies it best."""
    assert share(HEAD, 6, dry=False) == 2 * 9 + 4 * 7
    assert share(HEAD, -6, dry=False) == 2 * -3 + 0


def test_loads_do_not_count_when_dry() -> None:
    """An electric lamp would be weighed with fuel."""
    assert share(HEAD, 6, dry=True) == 2 * 9


def test_the_whole_tree_is_weighed_at_its_heights() -> None:
    """What stands on a part would be weighed at the height of that part's foot."""
    tree = build_tree((FOOT, HEAD), (Socket(required=False, fits=frozenset({1})),))
    node = (0, 1, ((1, 1, ()),))
    assert leverage_of(tree, node, -7, dry=True) == 5 * (-7 + 2) + 2 * (-7 + 10 + 3)
    assert leverage_of(tree, node, -7, dry=False) == 5 * -5 + 2 * 6 + 4 * (-7 + 10 + 1)
    assert leverage_of(tree, (0, 1, (None,)), -7, dry=False) == 5 * -5
