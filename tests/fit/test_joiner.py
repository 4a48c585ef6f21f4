from __future__ import annotations

from dataclasses import replace

from tests.support.small_book import PARTS, compiled_small, foot, part

from wickwright.fit.classes import port_class
from wickwright.fit.joiner import RANK, Joiner
from wickwright.fit.joints.verdict import Fit
from wickwright.fit.settings import Settings

JOINER = Joiner(Settings())
BY_ID = {one.id: one for one in PARTS}
COLLAR = BY_ID["F"].carries[0]


def test_the_better_of_two_feet_is_taken() -> None:
    """A part that can stand by either of two feet would be told to stand by the wrong one."""
    wrong, right = foot(40), replace(foot(50), name="right")
    for feet in ((wrong, right), (right, wrong)):
        found = JOINER.best(BY_ID["F"], COLLAR, part(f"X{feet[0].name}", "burner", *feet))
        assert found
        assert (found[0].name, found[1].fit) == ("right", Fit.FITS)


def test_a_part_without_a_foot_stands_on_nothing() -> None:
    """A base would be mounted on a font."""
    assert JOINER.best(BY_ID["F"], COLLAR, BY_ID["B"]) is None


def test_verdicts_run_from_best_to_worst() -> None:
    """A part would be put where it does not fit although it fits elsewhere."""
    assert sorted(Fit, key=RANK.__getitem__) == list(Fit)
    assert RANK[Fit.FITS] == 0
    assert RANK[Fit.EFFORT] == 1


def test_pairs_sold_together_fit_where_sizes_cannot_tell() -> None:
    """A pair that left the works joined would be called not known, or any other pair a fit."""
    burner, font = part("X", "burner", foot(None)), BY_ID["F"]
    by = burner.stands[0]
    together = frozenset({(port_class(font, COLLAR), port_class(burner, by))})
    knowing = Joiner(Settings(), together)
    assert JOINER.joined(font, COLLAR, burner, by).fit is Fit.UNKNOWN
    assert knowing.joined(font, COLLAR, burner, by).fit is Fit.FITS
    other = replace(burner, id="Y")
    assert knowing.joined(font, COLLAR, other, by).fit is Fit.UNKNOWN


def test_what_is_sold_together_settles_no_misfit() -> None:
    """A misfit on record would be hushed up because the pair was sold."""
    font, burner = BY_ID["F"], BY_ID["V"]
    by = burner.stands[0]
    together = frozenset({(port_class(font, COLLAR), port_class(burner, by))})
    assert Joiner(Settings(), together).joined(font, COLLAR, burner, by).fit is Fit.NOT


def test_the_book_knows_no_pair_that_needs_no_trust() -> None:
    """Pairs whose sizes are known would be taken on trust instead."""
    assert compiled_small().together == frozenset()
