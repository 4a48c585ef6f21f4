"""Why each line of an order put right is there, or is not."""

from __future__ import annotations

import csv
from functools import cache

import pytest
from tests.support.command import DEMO_ORDERS
from tests.support.demo import demo

from wickwright.answers import CheckedOrder, check_orders
from wickwright.answers.mended_lines import Did, change_words
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.orders.lines import Line, Order
from wickwright.orders.order_file import read_orders
from wickwright.terms.units import Units


@cache
def _of_the_demo() -> tuple[CheckedOrder, ...]:
    with DEMO_ORDERS.open(encoding="utf-8", newline="") as file:
        header, *rows = csv.reader(file)
    numbered = tuple((at, tuple(row)) for at, row in enumerate(rows, start=2))
    read = read_orders(RawTable("orders", tuple(header), numbered))
    orders = [one for one in read if not isinstance(one, Fault)]
    return tuple(it for it in check_orders(demo(), orders) if it.mended)


def _words(lamp: str, *parts: str, place: str = "") -> list[str]:
    lines = tuple(Line(at, part, "1") for at, part in enumerate(parts, start=2))
    (it,) = check_orders(demo(), [Order("A", lamp, place, lines)])
    return [change_words(change, it.checked, Units()) for change in it.changes]


def test_every_fault_of_an_order_put_right_is_cured_by_a_line() -> None:
    """If this fails, an order is changed and nobody can say what became of a fault."""
    assert len(_of_the_demo()) > 50
    for it in _of_the_demo():
        cured = {at for change in it.changes for at in change.cures}
        left = [fault for at, fault in enumerate(it.checked.faults) if at not in cured]
        assert {fault.fault for fault in left} <= {"dying"}, it.checked.understood.order.id


def test_every_line_written_and_every_line_sent_is_accounted_for_once() -> None:
    """If this fails, a part appears in an order, or is gone from it, without a word."""
    for it in _of_the_demo():
        assert it.mended is not None
        written = [change.line for change in it.changes if change.line is not None]
        assert sorted(written) == [*range(len(it.checked.understood.order.lines))]
        sent = [change.part for change in it.changes if change.part]
        assert sent == [part for part, _ in it.mended.lines]


def test_every_added_line_has_a_reason() -> None:
    """If this fails, the caller is asked to pay for a part and not told what for."""
    added = [
        (it, change) for it in _of_the_demo() for change in it.changes if change.did is Did.ADDED
    ]
    assert len(added) > 5
    for it, change in added:
        assert "no way was found" not in change_words(change, it.checked, Units())
        assert change.cures or change.reasons


@pytest.mark.parametrize(
    ("lamp", "parts", "words"),
    [
        (
            "SA-201",
            ("SH-1980",),
            [
                "HO-2198 added: carries the shade SH-1980; cures missing-companion (row 2)",
                "SH-1980 as ordered",
            ],
        ),
        (
            "DU-403",
            ("SH-0980", "MA-2030", "WI-3100"),
            [
                "WI-3100 as ordered",
                "HO-2098 added: carries the shade SH-0980; cures missing-companion (row 2)",
                "SH-0980 as ordered",
                "MA-2030 left out: until it is known which part is meant",
            ],
        ),
        (
            "DU-408",
            ("SP-3100", "BU-3220"),
            [
                "BU-3220 as ordered",
                "SP-3100 left out: it comes with what is sent; cures surplus (row 2)",
            ],
        ),
        (
            "WH-302",
            ("SH-1640",),
            [
                ("HO-2073 added: carries the shade SH-0731; cures missing-companion (row 2)"),
                "SH-0731 in place of SH-1640: cures tips (row 2), missing-companion (row 2)",
            ],
        ),
        (
            "DU-406",
            ("HO-2198", "SH-1980"),
            [
                (
                    "HO-2073 in place of HO-2198: with the one ordered, Parchment shade 73 "
                    "(SH-0731) in the ring of Ring holder 198 (HO-2198): does not fit. The holder "
                    "is made for the rim of a glass shade, and the shade for open arms"
                ),
                "SH-0731 in place of SH-1980: cures tips (row 3)",
            ],
        ),
    ],
)
def test_each_change_says_what_it_is_for(
    lamp: str, parts: tuple[str, ...], words: list[str]
) -> None:
    """If this fails, an adviser cannot tell the caller why the order was changed."""
    assert _words(lamp, *parts) == words


def test_the_same_part_twice_is_left_out_once() -> None:
    """If this fails, both lines of a part ordered twice are gone, or both are sent."""
    words = _words("DU-404", "MA-3300", "WI-3100", "MA-3300")
    assert words.count("MA-3300 as ordered") == 1
    assert "MA-3300 left out: cures surplus (row 4)" in words
