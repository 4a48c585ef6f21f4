from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from tests.support.demo import demo
from tests.support.small_book import PARTS, foot, part, seat

from wickwright.catalogue.assembly import Assembly, Mounted
from wickwright.fit.assemble import assemble, forest
from wickwright.fit.joiner import Joiner
from wickwright.fit.settings import Settings

JOINER = Joiner(Settings())
BY_ID = {one.id: one for one in PARTS}


def _stack(it: Mounted | None) -> str:
    """Write an assembly as parts in brackets behind what carries them."""
    if it is None:
        return ""
    above = " ".join(sorted(_stack(child) for child in it.carried))
    return f"{it.part.id}({above})" if above else it.part.id


def _put(keys: str) -> Assembly:
    return assemble([BY_ID[key] for key in keys.split()], JOINER)


def test_every_part_stands_where_its_kind_belongs() -> None:
    """A lamp would be put together other than it stands on the table."""
    found = _put("B F U W GQ CQ HR SG")
    assert _stack(found.root) == "B(F(U(GQ(CQ) HR(SG) W)))"
    assert found.loose == ()


def test_the_order_of_the_list_does_not_matter() -> None:
    """The same parts would be another lamp when they are named in another order."""
    parts = [BY_ID[key] for key in ("B", "F", "R", "V", "GV", "CP")]
    stacks = {_stack(assemble(order, JOINER).root) for order in itertools.permutations(parts)}
    assert stacks == {"B(F(R(V(GV(CP)))))"}


@pytest.mark.parametrize("lamp", sorted(demo().book.lamps))
def test_every_lamp_of_the_demo_goes_together(lamp: str) -> None:
    """A lamp as it left the works would come out in pieces, or with a part left over."""
    found = demo().sold(lamp)
    assert found.loose == ()
    assert {it.part.id for it in found.walk()} == set(demo().book.lamps[lamp].as_sold)


def test_misfits_are_mounted() -> None:
    """A chimney of the wrong foot would be called homeless instead of misfitting."""
    found = _put("B F U W GQ CP")
    assert _stack(found.root) == "B(F(U(GQ(CP) W)))"


def test_the_better_joint_is_taken_first() -> None:
    """A part would be forced into a place although another takes it well."""
    wide, narrow = seat("chimney", 70), seat("chimney", 62)
    burner = part("K", "burner", foot(50), replace(wide, name="a"), replace(narrow, name="b"))
    chimney = part("C", "chimney", foot(62))
    found = assemble([BY_ID["B"], BY_ID["F"], burner, chimney], JOINER)
    mounted = found.of_kind("chimney")
    assert mounted
    assert mounted.on
    assert mounted.on.name == "b"


def test_of_two_places_alike_the_higher_is_taken() -> None:
    """A holder would hang on the burner where the gallery above is made to carry it."""
    gallery = replace(BY_ID["GP"], ports=(*BY_ID["GP"].ports, BY_ID["GV"].ports[-1]))
    parts = [*(BY_ID[key] for key in ("B", "F", "U", "HR")), gallery]
    stacks = {_stack(assemble(order, JOINER).root) for order in itertools.permutations(parts)}
    assert stacks == {"B(F(U(GP(HR))))"}


def test_the_part_that_fits_gets_the_place() -> None:
    """Of two chimneys and one place, the one that fits would be left over."""
    found = _put("B F U GQ CP CQ")
    assert _stack(found.root) == "B(F(U(GQ(CQ))))"
    assert [one.id for one in found.loose] == ["CP"]


def test_a_shade_without_its_holder_is_loose() -> None:
    """A shade would be hung in the air."""
    found = _put("B F U SG")
    assert _stack(found.root) == "B(F(U))"
    assert [one.id for one in found.loose] == ["SG"]


def test_without_a_base_everything_is_loose() -> None:
    """A heap of parts would be taken for a lamp."""
    assert _put("F U W") == Assembly(None, (BY_ID["F"], BY_ID["U"], BY_ID["W"]))


def test_of_two_bases_the_first_is_the_root() -> None:
    """A lamp would stand on the base the caller named second."""
    found = _put("B F BH")
    assert found.root
    assert found.root.part.id == "B"
    assert [one.id for one in found.loose] == ["BH"]


def test_a_bell_hangs_on_the_frame() -> None:
    """A smoke bell would find no place on a lamp that hangs."""
    assert _stack(_put("BH F U BE").root) == "BH(BE F(U))"


def test_a_forest_leaves_nothing_loose() -> None:
    """Parts of an order without a base would be lost from sight."""
    trees = forest([BY_ID[key] for key in ("SG", "CP", "HR", "GV", "W")], JOINER)
    assert [_stack(one.root) for one in trees] == ["W", "GV(CP HR(SG))"]
    assert all(one.loose == () for one in trees)


def test_a_forest_of_nothing_is_empty() -> None:
    """An order without mounted parts would fail instead of having nothing to stand on."""
    assert forest([], JOINER) == ()
