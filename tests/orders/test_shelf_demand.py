"""What several orders want of one shelf."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.answers import check_orders, short_for_all
from wickwright.answers.words.wording import sentence
from wickwright.catalogue.records import Status
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.orders.lines import Line, Order
from wickwright.orders.shelf_demand import ShelfDemand, Shortage
from wickwright.orders.understood import understand
from wickwright.terms.finding import Severity
from wickwright.terms.units import Units


def _with_stock(stock: int, status: Status = Status.MADE) -> Compiled:
    book = demo().book
    part = replace(book.parts["WI-3100"], stock=stock, status=status)
    return compile_book(replace(book, parts={**book.parts, part.id: part}))


def _order(number: str, row: int, *counts: int) -> Order:
    lines = (Line(row + at, "WI-3100", str(count)) for at, count in enumerate(counts))
    return Order(number, "DU-401", "", tuple(lines))


def _short(compiled: Compiled, *orders: Order) -> tuple[Shortage, ...]:
    return short_for_all(compiled.book, check_orders(compiled, orders, propose=False))


def test_orders_that_exceed_the_shelf_together_are_named() -> None:
    """If this fails, two callers are promised the same pieces."""
    (short,) = _short(_with_stock(4), _order("A", 2, 3), _order("B", 3, 1, 1), _order("C", 5, 9))
    assert short.orders == (("A", 2, 3), ("B", 3, 2))
    assert (short.wanted, short.finding.severity) == (5, Severity.CAUTION)
    words = sentence(short.finding, Units())
    assert words.says == (
        "Wick, size 3 (WI-3100): 5 ordered, 4 on the shelf. Together it is too much for A (3), "
        "B (2)."
    )
    assert words.cure == "Say which are sent first and when the others follow."


def test_the_last_stock_of_a_dying_part_is_a_fault() -> None:
    """If this fails, a caller waits for a part that is never made again."""
    compiled = _with_stock(4, Status.STOCKS)
    (short,) = _short(compiled, _order("A", 2, 3), _order("B", 3, 2))
    assert short.finding.severity is Severity.FAULT
    assert sentence(short.finding, Units()).cure == (
        "Settle who is served; no more are made. Nothing replaces it."
    )


def test_an_order_for_two_lamps_does_not_compete_with_itself() -> None:
    """If this fails, one caller's order is told as two rivals."""
    compiled = _with_stock(4)
    assert _short(compiled, _order("A", 2, 3), _order("A", 3, 2)) == ()


def test_a_long_list_of_rivals_is_cut_in_words_and_whole_in_data() -> None:
    """If this fails, a hundred order numbers fill the screen, or some are lost."""
    orders = [_order(f"O-{at}", at, 1) for at in range(2, 22)]
    (short,) = _short(_with_stock(10), *orders)
    assert len(short.orders) == 20
    assert sentence(short.finding, Units()).says.endswith("O-13 (1), and 8 more.")


@given(st.integers(0, 12), st.lists(st.integers(1, 9), max_size=6))
def test_a_shortage_is_told_exactly_when_the_shelf_does_not_do(
    stock: int, counts: list[int]
) -> None:
    """If this fails, a shortage is invented or goes unseen."""
    book = demo().book
    part = replace(book.parts["WI-3100"], stock=stock)
    stocked = replace(book, parts={**book.parts, part.id: part})
    demand = ShelfDemand()
    for at, count in enumerate(counts):
        demand.add(understand(stocked, _order(f"O-{at}", at + 2, count))[0])
    possible = [count for count in counts if count <= stock]
    assert bool(demand.shortages(stocked)) == (sum(possible) > stock)
