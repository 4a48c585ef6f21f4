"""Orders judged as they would be once what is missing has been added."""

from __future__ import annotations

from dataclasses import replace

from tests.support.demo import demo

from wickwright.answers.words.wording import sentence
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.compiled import compile_book
from wickwright.fit.place import Place
from wickwright.orders.checking import Checked, check_order
from wickwright.orders.for_which_lamp import could_be_for
from wickwright.orders.lines import Line, Order
from wickwright.orders.understood import understand
from wickwright.terms.finding import Severity
from wickwright.terms.units import Units


def _order(lamp: str, *parts: str) -> Order:
    return Order("A", lamp, "", tuple(Line(at, part, "1") for at, part in enumerate(parts, 2)))


def _faults(checked: Checked) -> list[tuple[str, str]]:
    return [(fault.fault, fault.part) for fault in checked.faults]


def test_a_heavy_shade_without_holder_is_told_to_tip_a_short_lamp() -> None:
    """If this fails, a caller adds the holder as told, and the lamp falls with its oil."""
    checked = check_order(demo(), _order("WH-302", "SH-1640"))
    assert _faults(checked) == [("tips", "SH-1640"), ("missing-companion", "SH-1640")]
    danger, missing = (sentence(fault.finding, Units()) for fault in checked.faults)
    assert danger.says == "With Opal dome 164 (SH-1640) the lamp tips, whatever carries it."
    assert missing.cure == (
        "Do not add what carries it. Leave Opal dome 164 (SH-1640) out, or take what stands in "
        "the mended order."
    )


def test_the_tipping_told_is_that_of_the_holder_it_tips_least_with() -> None:
    """If this fails, the danger told is not there with another holder of the book."""
    compiled = demo()
    lamp = compiled.book.lamps["WH-302"]
    parts = [compiled.book.parts[number] for number in lamp.as_sold]
    angles = []
    for holder in compiled.parts:
        if holder.kind == "holder":
            ordered = (*parts, holder, compiled.book.parts["SH-1640"])
            findings = audit(assemble(ordered, compiled.joiner), lamp, Place(), compiled.joiner)
            rules = {one.rule: one for one in findings}
            bad = {"incomplete", "no-place"} & set(rules)
            joint = [one for one in findings if one.rule.startswith("joint-")]
            if not bad and all(one.severity < Severity.UNKNOWN for one in joint):
                angles.append(rules["tips"].measured)
    checked = check_order(compiled, _order("WH-302", "SH-1640"))
    because = checked.faults[0].because
    assert because is not None
    assert because.measured == max(angles, key=lambda it: getattr(it, "value", 0.0))
    assert len(angles) > 0


def test_a_shade_that_any_lamp_stands_with_is_given_a_holder_by_name() -> None:
    """If this fails, an adviser has to look up what carries the shade."""
    (fault,) = check_order(demo(), _order("SA-201", "SH-1980")).faults
    assert fault.fault == "missing-companion"
    assert sentence(fault.finding, Units()).cure == (
        "Add a holder such as Ring holder 198 (HO-2198), or leave Opal dome 198 (SH-1980) out."
    )


def test_a_shade_too_weak_for_the_heat_is_told_before_it_has_a_holder() -> None:
    """If this fails, a holder is sent for a shade that catches fire."""
    checked = check_order(demo(), _order("DU-401", "SH-0733"))
    assert _faults(checked) == [("not-heat-rated", "SH-0733"), ("missing-companion", "SH-0733")]


def test_a_bulb_for_an_oil_lamp_is_not_said_to_want_a_carrier_of_its_own() -> None:
    """If this fails, an electric burner is to be stood on an oil burner."""
    (fault,) = check_order(demo(), _order("WH-301", "LB-2760")).faults
    assert (fault.fault, fault.finding.rule) == ("missing-companion", "missing-companion")


def test_parts_that_no_lamp_takes_together_are_told() -> None:
    """If this fails, a wick for one burner and a mantle for another pass as one lamp's."""
    (fault,) = check_order(demo(), _order("", "WI-2100", "MA-3310")).faults
    assert fault.fault == "no-one-lamp"
    assert sentence(fault.finding, Units()).says == (
        "No lamp in the fit book takes Wick, size 2 (WI-2100) and Bright mantle on a ring, size 3 "
        "(MA-3310) together."
    )


def test_a_lamp_that_is_named_is_not_asked_for() -> None:
    """If this fails, an order for a known lamp is told that no lamp takes its parts."""
    checked = check_order(demo(), _order("WH-302", "WI-2100", "MA-3310"))
    assert "no-one-lamp" not in {fault.fault for fault in checked.faults}


def test_the_lamps_an_order_could_be_for_are_those_it_has_no_fault_on() -> None:
    """If this fails, an adviser asks about lamps the parts do not go on, or misses one."""
    compiled = demo()
    for parts in (("WI-2100", "MA-2300"), ("CH-6160",), ("BU-7600", "LB-1440")):
        understood, _ = understand(compiled.book, _order("", *parts))
        found = [lamp.id for lamp in could_be_for(compiled, understood)]
        clean = [
            lamp
            for lamp in compiled.book.lamps
            if all(
                fault.finding.severity <= Severity.UNKNOWN
                for fault in check_order(compiled, _order(lamp, *parts)).faults
            )
        ]
        assert found == clean != []


def test_a_shade_is_for_the_lamps_that_can_carry_it() -> None:
    """If this fails, a shade ordered without lamp and holder is said to be for none."""
    compiled = demo()
    understood, _ = understand(compiled.book, _order("", "SH-1980"))
    found = {lamp.id for lamp in could_be_for(compiled, understood)}
    assert "SA-201" in found
    assert "WH-302" not in found


def test_more_of_a_part_than_lie_on_the_shelf_is_told_though_it_is_made() -> None:
    """If this fails, a parcel leaves short without anyone having said so."""
    book = demo().book
    few = replace(book.parts["WI-3100"], stock=2)
    compiled = compile_book(replace(book, parts={**book.parts, "WI-3100": few}))
    lines = (Line(2, "WI-3100", "2"), Line(3, "WI-3100", "1"))
    found = check_order(compiled, Order("A", "DU-401", "", lines))
    (short,) = [fault for fault in found.faults if fault.fault == "short-stock"]
    assert (short.row, short.finding.severity) == (2, Severity.CAUTION)
    words = sentence(short.finding, Units())
    assert words.says == "Wick, size 3 (WI-3100): 3 ordered, 2 on the shelf."
    assert words.cure == (
        "Send what is there and say when the rest follows, or ask whether the caller would rather "
        "wait."
    )
    assert check_order(compiled, Order("A", "DU-401", "", lines[:1])).faults == ()
