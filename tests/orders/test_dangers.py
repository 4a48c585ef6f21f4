"""Orders in which something is dangerous or not known must not pass."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tests.support.demo import demo

from wickwright.catalogue.faults import Fault, RawTable
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.orders.checking import Checked, check_order
from wickwright.orders.mending import mend
from wickwright.orders.order_file import read_orders

if TYPE_CHECKING:
    from wickwright.orders.lines import Order


def _orders(*rows: tuple[str, ...], header: tuple[str, ...] = ()) -> tuple[Order, ...]:
    named = header or ("order", "lamp", "place", "part", "quantity")
    table = RawTable("orders", named, tuple(enumerate(rows, start=2)))
    read = read_orders(table)
    return tuple(one for one in read if not isinstance(one, Fault))


def _checked(compiled: Compiled, *rows: tuple[str, ...]) -> Checked:
    return check_order(compiled, _orders(*rows)[0])


def _faults(checked: Checked) -> list[tuple[str, str, int]]:
    return [(fault.fault, fault.part, fault.row) for fault in checked.faults]


def test_an_oil_burner_beside_an_electric_one_is_a_danger() -> None:
    """If this fails, a flame and a bulb are sent for one lamp as a mere spare."""
    rows = [("A", "DU-401", "", part, "1") for part in ("BU-7200", "LB-2740", "BU-3200")]
    checked = _checked(demo(), *rows)
    assert ("oil-beside-electric", "BU-3200", 4) in _faults(checked)
    assert mend(demo(), checked) is None


def test_a_shade_nobody_weighed_is_not_known() -> None:
    """If this fails, an order passes although nobody knows whether the lamp will tip."""
    book = demo().book
    light = replace(book.parts["SH-1640"], mass=None)
    compiled = compile_book(replace(book, parts={**book.parts, "SH-1640": light}))
    rows = [("A", "WH-302", "", part, "1") for part in ("HO-2164", "SH-1640")]
    assert ("not-known", "SH-1640", 3) in _faults(_checked(compiled, *rows))


def test_nothing_is_proposed_for_a_place_that_cannot_be_read() -> None:
    """If this fails, a chimney for the shore is proposed for a house in the hills."""
    checked = _checked(demo(), ("A", "DU-401", "1,7 km", "CH-3296", "1"))
    assert [fault for fault, _, _ in _faults(checked)] == ["bad-place"]
    assert mend(demo(), checked) is None


def test_each_bad_quantity_is_told() -> None:
    """If this fails, the second slip of the pen of a part goes unseen."""
    rows = [("A", "DU-401", "", "CH-3296", count) for count in ("0", "-1")]
    assert _faults(_checked(demo(), *rows)) == [
        ("bad-quantity", "CH-3296", 2),
        ("bad-quantity", "CH-3296", 3),
    ]


def test_a_misspelt_column_is_a_fault() -> None:
    """If this fails, lamps and quantities are passed over without a word."""
    header = ("order", "lmp", "place", "part", "qty")
    read = read_orders(RawTable("orders", header, ((2, ("A", "WH-302", "", "SH-1640", "0")),)))
    assert [one.column for one in read if isinstance(one, Fault)] == ["lamp", "quantity"]
    first = read[0]
    assert isinstance(first, Fault)
    assert (first.what, first.cure) == (
        "there is no column 'lamp', but there are columns we do not know: lmp, qty",
        (
            "did you mean 'lmp'? rename the column meant, or add an empty column 'lamp': model the "
            "parts are for; blank on all rows when the caller did not say"
        ),
    )
