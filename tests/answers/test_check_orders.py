from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.answers import check_orders
from wickwright.answers.mended_lines import changes
from wickwright.orders.checking import check_order
from wickwright.orders.lines import Line, Order
from wickwright.orders.mending import mend

BASKETS = (
    ("WH-302", ("GA-2450", "CH-3296")),
    ("DU-401", ("CH-3296",)),
    ("DU-403", ("WI-3100", "SH-0980")),
    ("SO-502", ("CH-5402",)),
    ("", ("LB-2759",)),
    ("TU-60", ("CH-6215", "nothing")),
)

places = st.one_of(
    st.integers(0, 3000).map("{} m".format),
    st.sampled_from(["", "somewhere", "5200 ft", "1700 m"]),
)


@st.composite
def files(draw: st.DrawFn) -> list[Order]:
    """Orders that ask the same again and again at other places and on other rows."""
    orders, row = [], 2
    for at in range(draw(st.integers(1, 8))):
        lamp, parts = draw(st.sampled_from(BASKETS))
        lines = [
            Line(row + n, part, draw(st.sampled_from(["", "2"]))) for n, part in enumerate(parts)
        ]
        row += len(lines)
        orders.append(Order(f"O-{at}", lamp, draw(places), tuple(lines)))
    return orders


@settings(max_examples=40, deadline=None)
@given(files())
def test_what_is_remembered_is_what_would_be_found(orders: list[Order]) -> None:
    """If this failed, an order would get the faults or the chimney of another place."""
    compiled = demo()
    for order, found in zip(orders, check_orders(compiled, orders), strict=True):
        alone = check_order(compiled, order)
        assert found.checked == alone
        if found.mended:
            assert found.changes == changes(compiled, alone, found.mended)
        mended = mend(compiled, alone) if alone.faults else None
        assert (found.mended is None) == (mended is None)
        if found.mended and mended:
            assert found.mended.lines == mended.lines
            assert found.mended.price == mended.price


def test_an_order_again_on_other_rows_names_its_own_rows() -> None:
    """If this failed, a clerk would mend the wrong row."""
    first = Order("O-1", "DU-401", "", (Line(2, "SH-0733", "1"),))
    again = replace(first, id="O-2", lines=(Line(9, "SH-0733", "1"),))
    one, two = check_orders(demo(), [first, again], propose=False)
    assert {fault.row for fault in one.checked.faults} == {2}
    assert {fault.row for fault in two.checked.faults} == {9}
    assert two.checked.understood.order is again
