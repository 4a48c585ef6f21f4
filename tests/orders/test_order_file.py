"""A file of orders in which a row, a cell or a name is not as it should be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.support.demo import demo

from wickwright.answers.words.wording import sentence
from wickwright.catalogue.faults import Fault, RawTable
from wickwright.orders.checking import check_order
from wickwright.orders.order_file import read_orders
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from wickwright.orders.checking import Checked
    from wickwright.orders.lines import Order

COLUMNS = ("order", "lamp", "place", "part", "quantity")


def _read(
    *rows: tuple[str, ...], header: tuple[str, ...] = COLUMNS, unread: tuple[Fault, ...] = ()
) -> list[Order]:
    read = read_orders(RawTable("orders", header, tuple(enumerate(rows, start=2)), unread))
    assert not any(isinstance(one, Fault) for one in read), read
    return [one for one in read if not isinstance(one, Fault)]


def _checked(*rows: tuple[str, ...], header: tuple[str, ...] = COLUMNS) -> list[Checked]:
    return [check_order(demo(), order) for order in _read(*rows, header=header)]


def _faults(checked: Checked) -> list[tuple[int, str, str]]:
    return [(fault.row, fault.fault, fault.part) for fault in checked.faults]


def _told(checked: Checked) -> list[str]:
    words = (sentence(fault.finding, Units()) for fault in checked.faults)
    return [f"{one.says} -> {one.cure}" for one in words]


def test_a_blank_part_is_told_and_the_other_rows_are_checked() -> None:
    """If this fails, one blank cell hides every other fault of its order."""
    (checked,) = _checked(("A", "DU-401", "", "", "1"), ("A", "DU-401", "", "CH-6296", "1"))
    assert _faults(checked) == [(2, "unread-cell", ""), (3, "not-heat-rated", "CH-6296")]
    assert _told(checked)[0] == (
        "Column part: the part is blank. -> Write the part number, or take the row out."
    )


def test_a_row_without_order_number_is_looked_up_but_not_put_on_a_lamp() -> None:
    """If this fails, a holder parted from its shade by a merged cell makes false faults."""
    sound, without = _checked(
        ("A", "SA-201", "", "HO-2198", "1"), ("", "", "", "SH-1980", "1"), ("", "", "", "X", "0")
    )
    assert (sound.faults, without.understood.order.id) == ((), "")
    assert _faults(without) == [
        (3, "unread-cell", "SH-1980"),
        (4, "unknown-part", "X"),
        (4, "unread-cell", "X"),
    ]
    assert _told(without)[0] == (
        "Column order: the order number is blank. -> Is it order A, as the row above? write the "
        "number of the order on every row."
    )


def test_rows_without_number_below_another_order_are_another_order() -> None:
    """If this fails, nameless rows of two callers are thrown together."""
    read = _read(("A", "", "", "X"), ("", "", "", "X"), ("B", "", "", "X"), ("", "", "", "X"))
    assert [(one.id, one.row) for one in read] == [("A", 2), ("", 3), ("B", 4), ("", 5)]


def test_a_cell_with_a_spreadsheet_error_is_neither_a_blank_nor_a_one() -> None:
    """If this fails, a quantity that broke is sent as one piece."""
    broken = Fault("orders", 2, "Quantity", "the cell holds a spreadsheet error", "mend it")
    passed_over = Fault("orders", 2, "remark", "the cell holds a spreadsheet error", "mend it")
    header = ("order", "lamp", "place", "part", "Quantity", "remark")
    (order,) = _read(
        ("A", "DU-401", "", "WI-3100", "", ""), header=header, unread=(broken, passed_over)
    )
    checked = check_order(demo(), order)
    assert _faults(checked) == [(2, "unread-cell", "WI-3100")]
    assert _told(checked) == ["Column Quantity: the cell holds a spreadsheet error. -> Mend it."]
    assert checked.understood.wanted == ()


def test_a_header_in_the_middle_is_told_as_a_row_that_cannot_be_read() -> None:
    """If this fails, two files joined end to end order a part called 'part'."""
    again = Fault("orders", 3, "", "the header stands here a second time", "take this row out")
    sound, header = _read(("A", "DU-401", "", "WI-3100", "1"), COLUMNS, unread=(again,))
    assert check_order(demo(), sound).faults == ()
    checked = check_order(demo(), header)
    assert _told(checked) == ["The header stands here a second time. -> Take this row out."]


def test_two_lamps_under_one_number_are_told_on_both() -> None:
    """If this fails, parts for two lamps leave as one order and nobody asks."""
    one, two = _checked(("A", "DU-401", "", "WI-3100", "1"), ("A", "WH-302", "", "WI-2100", "1"))
    assert (_faults(one), _faults(two)) == ([(2, "two-lamps", "")], [(3, "two-lamps", "")])
    assert _told(two) == [
        (
            "Order A names more than one lamp: DU-401 (row 2), WH-302 (row 3). -> Ask which lamp "
            "is meant, or give each lamp an order number of its own. Each is checked by itself."
        )
    ]


def test_two_places_under_one_number_are_told_on_both() -> None:
    """If this fails, one lamp is judged by the shore and in the hills, and nobody asks."""
    one, two = _checked(
        ("A", "DU-401", "0 m", "WI-3100", "1"), ("A", "DU-401", "1700 m", "CH-3371", "1")
    )
    assert (_faults(one), _faults(two)) == ([(2, "two-places", "")], [(3, "two-places", "")])
    assert _told(one) == [
        (
            "Order A names more than one place: 0 m (row 2), 1700 m (row 3). -> Ask where the lamp "
            "stands, or give each place an order number of its own. Each is checked by itself."
        )
    ]


def test_a_place_written_in_two_ways_is_one_place() -> None:
    """If this fails, '1700 m' and '1,700m' are asked about as if they were two places."""
    (order,) = _read(("A", "du-401", "1700 m", "X"), ("A", "DU-401", "1,700m", "Y"))
    assert (order.lamps, order.places, len(order.lines)) == ((), (), 2)


def test_lamp_and_place_on_the_first_row_hold_for_the_order() -> None:
    """If this fails, an order written once at its head is judged at sea level, on no lamp."""
    (order,) = _read(
        ("A", "", "", "GA-2450"), ("A", "WH-302", "1700 m", "CH-3371"), ("A", "", "", "WI-2100")
    )
    assert (order.lamp, order.place, order.lamps, order.places) == ("WH-302", "1700 m", (), ())


def test_a_blank_lamp_beside_two_lamps_is_given_neither() -> None:
    """If this fails, a part is put on the wrong one of two lamps."""
    read = _read(("A", "DU-401", "", "X"), ("A", "WH-302", "", "X"), ("A", "", "", "X"))
    assert [order.lamp for order in read] == ["DU-401", "WH-302", ""]
    assert read[2].lamps == ("DU-401 (row 2)", "WH-302 (row 3)", "none (row 4)")


def test_capitals_and_dashes_of_ids_do_not_matter() -> None:
    """If this fails, an order typed in small letters or by a spreadsheet is all unknown."""
    (checked,) = _checked(("A", "du-401", "", "ch\u20113296", "1"))
    assert checked.faults == ()
    assert [part.id for part in checked.understood.parts] == ["CH-3296"]
    assert checked.understood.lamp is demo().book.lamps["DU-401"]


def test_a_head_with_a_unit_gives_every_place_its_unit() -> None:
    """If this fails, a column of numbers from a shop is refused cell by cell, or guessed at."""
    header = ("order", "lamp", "Place (m)", "part", "quantity")
    rows = (("A", "DU-401", "1700", "CH-3296", "1"), ("B", "DU-401", "5200 ft", "CH-3371", "1"))
    short, tall = _checked(*rows, header=header)
    assert _faults(short) == [(2, "wrong-for-place", "CH-3296")]
    assert (short.understood.place.elevation, tall.faults) == (1700.0, ())


def test_a_place_without_unit_is_asked_about() -> None:
    """If this fails, feet are taken for metres, or metres for feet."""
    (checked,) = _checked(("A", "DU-401", "1700", "CH-3371", "1"))
    assert _told(checked) == [
        (
            "'1700' has no unit: 1,700 m, or 1,700 ft, which is 518 m: write the unit behind it, "
            "such as 5200ft or 1700m. -> Ask the caller where the lamp stands; a column of mere "
            "numbers may be headed 'place (m)' or 'place (ft)'."
        )
    ]


def test_signs_that_nobody_sees_are_dropped() -> None:
    """If this fails, a number copied from a web page is said to be unknown and looks right."""
    (order,) = _read(("O-\x1b1\u200b", "DU-401\u00a0", "1700\u00a0m", "CH-3\x07296", " 1"))
    assert (order.id, order.lamp, order.place) == ("O-1", "DU-401", "1700 m")
    assert (order.lines[0].part, order.lines[0].quantity) == ("CH-3296", "1")


def test_a_title_above_the_header_is_told_as_such() -> None:
    """If this fails, a file with a title is said to lack columns that it has."""
    rows = ((3, COLUMNS), (4, ("A", "DU-401", "", "WI-3100", "1")))
    (fault,) = read_orders(RawTable("orders", ("Orders of March",), rows))
    assert fault == Fault(
        "orders",
        3,
        "",
        "the header stands here, not on row 1",
        "take out what stands above row 3",
    )


def test_a_file_without_rows_is_not_a_file_without_fault() -> None:
    """If this fails, an export that went wrong is reported as all in order."""
    (fault,) = read_orders(RawTable("orders", COLUMNS, ()))
    assert fault == Fault(
        "orders",
        0,
        "",
        "there is no row below the header",
        "there is nothing to check: export the orders again",
    )


def test_a_quantity_with_marks_says_how_to_write_it() -> None:
    """If this fails, a clerk does not see what is wrong with 1,000."""
    for quantity in ("1,000", "2 pcs", "100000", "1e3", "-1", "0", "2.5", "\u00b2"):
        (checked,) = _checked(("A", "DU-401", "", "WI-3100", quantity))
        assert _told(checked) == [
            (
                f"'{quantity}' of Wick, size 3 (WI-3100) is not a quantity. -> Ask the caller how "
                "many are wanted, and write a whole number up to 99,999 in mere digits."
            )
        ]
    (sound,) = _checked(("A", "DU-401", "", "WI-3100", "2.0"))
    assert sound.understood.wanted[0][2] == 2
