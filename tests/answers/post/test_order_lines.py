"""What goes into the parcel: lines for the warehouse, a file that reads back."""

import csv
import io
import json
from dataclasses import replace

import pytest
from tests.support.demo import demo
from tests.support.round_of_wishes import round_of_wishes

from wickwright.answers import Routes, check_orders, which_parts
from wickwright.answers.post.order_lines import (
    OrderLine,
    no_formula,
    order_csv,
    order_lines,
    plain_order_lines,
)
from wickwright.catalogue.faults import RawTable
from wickwright.fit.place import Place
from wickwright.orders.lines import Order
from wickwright.orders.order_file import read_orders
from wickwright.orders.understood import understand
from wickwright.terms.units import Units

UNITS = Units("metric", "SKD")


def _read(text: str) -> list[Order]:
    header, *rows = csv.reader(io.StringIO(text, newline=""))
    table = RawTable("order", tuple(header), tuple(enumerate(map(tuple, rows), start=2)))
    read = read_orders(table)
    orders = [one for one in read if isinstance(one, Order)]
    assert len(orders) == len(read), read
    return orders


def _lines(count: int = 1) -> tuple[OrderLine, ...]:
    answer = which_parts(demo(), "WH-302", "renew-chimney", elevation=1700.0, count=count)
    assert isinstance(answer, Routes)
    return order_lines(demo(), answer.now, answer.routes[0], UNITS, order="7")


def test_the_file_is_an_order_file_with_more_columns_for_people() -> None:
    """If this failed, the warehouse would miss a column, or 'check' would not read the file."""
    assert order_csv(_lines(), "SKD") == (
        "order,lamp,place,part,quantity,name,price,total,currency,availability,why\r\n"
        '7,WH-302,1700 m,GA-2450,1,"Converting gallery for basket 2, plain-foot seat",39.00,39.00,'
        'SKD,made,"your gallery GA-2410 does not take CH-3371: the gallery is made for a '
        "quarter-turn foot, and the chimney for spring fingers; CH-2296 was replaced by CH-3296, "
        'which needs this gallery"'
        "\r\n"
        '7,WH-302,1700 m,CH-3371,1,"Chimney, plain foot, tall",31.00,31.00,SKD,made,'
        '"a new chimney, as you asked"\r\n'
    )


def test_pieces_are_for_all_lamps_together() -> None:
    """If this failed, a hall of six lamps would be sent the parts of one."""
    plain = plain_order_lines(_lines(count=6), "SKD")
    assert json.loads(json.dumps(plain)) == plain
    assert (plain["currency"], plain["total"]) == ("SKD", "420.00")
    first = plain["lines"]
    assert isinstance(first, list)
    assert isinstance(first[0], dict)
    assert {key: first[0][key] for key in ("quantity", "price", "total")} == {
        "quantity": 6,
        "price": "39.00",
        "total": "234.00",
    }


def test_a_total_without_every_price_is_not_known() -> None:
    """If this failed, a part without a price would be given away."""
    lines = [replace(_lines()[0], price=None), _lines()[1]]
    assert plain_order_lines(lines, "SKD")["total"] is None


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_is_a_formula(sign: str) -> None:
    """If this failed, opening the order in a spreadsheet would run what a part's name says."""
    assert no_formula(f"{sign}1+1") == f"'{sign}1+1"
    line = replace(_lines()[0], name=f"{sign}HYPERLINK(A1)")
    cells = list(csv.reader(io.StringIO(order_csv([line], "SKD"), newline="")))[1]
    assert not [cell for cell in cells if cell[:1] in {"=", "+", "-", "@", "\t", "\r"}]


@pytest.mark.parametrize("elevation", [0.0, 1584.96, -300.0, 0.3, 1799.999])
def test_a_place_reads_back_as_the_same_place(elevation: float) -> None:
    """If this failed, the chimney would be checked for another elevation than it was chosen for."""
    answer = which_parts(demo(), "DU-401", "renew-wick", elevation=elevation)
    assert isinstance(answer, Routes)
    lines = order_lines(demo(), answer.now, answer.routes[0], UNITS)
    (order,) = _read(order_csv(lines, "SKD"))
    understood, faults = understand(demo().book, order)
    assert (understood.place, faults) == (Place(elevation), ())


def test_what_the_search_sends_the_check_lets_pass() -> None:
    """If this failed, the desk would send what its own check of orders sends back.

    That a part is sold while stocks last is told with both and stops neither.
    """
    lines = [
        line
        for at, (now, route) in enumerate(round_of_wishes())
        for line in order_lines(demo(), now, route, UNITS, order=f"{at}")
    ]
    orders = _read(order_csv(lines, "SKD"))
    assert len(orders) > 60
    found = {
        (it.checked.understood.order.id, fault.fault)
        for it in check_orders(demo(), orders, propose=False)
        for fault in it.checked.faults
        if fault.fault != "dying"
    }
    assert found == set()
    assert sum(len(order.lines) for order in orders) == len(lines)
