import json

from tests.support.demo import demo

from wickwright.answers import (
    Impossible,
    check_orders,
    do_they_fit,
    rule_book,
    what_replaced,
    which_parts,
    which_serve_all,
)
from wickwright.answers.plain.answers import (
    plain_answer,
    plain_finding,
    plain_money,
    plain_pair,
    plain_replacement,
    plain_rule,
    plain_shared,
)
from wickwright.answers.plain.orders import plain_order
from wickwright.orders.lines import Line, Order
from wickwright.terms.finding import Finding, Kind, Quantity, Range, Severity
from wickwright.terms.units import Units

UNITS = Units("metric", "SKD")


def test_money_is_decimal_text() -> None:
    """If this failed, a price would pass through a binary fraction, or lose a nought."""
    assert [plain_money(one) for one in (0, 5, 120, 7000, None)] == [
        "0.00",
        "0.05",
        "1.20",
        "70.00",
        None,
    ]


def test_a_figure_carries_its_unit_in_its_key() -> None:
    """If this failed, a reader would take radians for degrees."""
    finding = Finding(
        "tips",
        Severity.DANGER,
        ("BA-1",),
        {"fill": "empty"},
        measured=Quantity(0.1, Kind.ANGLE),
        permitted=Range(0.14, None, Kind.ANGLE),
    )
    plain = plain_finding(finding, UNITS)
    assert plain["measured"] == {"angle_rad": 0.1}
    assert plain["permitted"] == {"angle_rad": [0.14, None]}
    assert plain["severity"] == "danger"
    assert plain["says"] == (
        "The lamp tips at 5.7° when the font is empty; at least 8.0° is required."
    )


def test_every_answer_is_json() -> None:
    """If this failed, a machine that asks would get an error in place of an answer."""
    compiled = demo()
    shared = which_serve_all(compiled, ("WH-301", "TU-601"), "renew-chimney")
    pair = do_they_fit(compiled, "CH-3296", "GA-2450")
    assert pair is not None
    (checked,) = check_orders(compiled, [Order("1", "DU-401", "", (Line(2, "SH-0733", "1"),))])
    for plain in (
        plain_answer(compiled, which_parts(compiled, "WH-302", "add-glass-shade"), UNITS),
        plain_answer(
            compiled, which_parts(compiled, "TY-101", "renew-burner", have=["FO-1160"]), UNITS
        ),
        plain_shared(compiled, ("WH-301", "TU-601"), shared, UNITS),
        plain_pair(pair, UNITS),
        plain_replacement(what_replaced(compiled, "CH-2296")),
        plain_order(checked, UNITS),
        [plain_rule(rule) for rule in rule_book()],
    ):
        assert json.loads(json.dumps(plain, allow_nan=False)) == plain


def test_what_would_be_unsafe_to_give_up_is_not_offered() -> None:
    """If this failed, a machine would sell a lamp that tips."""
    compiled = demo()
    answer = which_parts(compiled, "WH-302", "add-glass-shade")
    assert isinstance(answer, Impossible)
    assert any(claim.sort == "tip" for out in answer.ways_out for claim in out.give_up)
    why_not = plain_answer(compiled, answer, UNITS)["why_not"]
    assert isinstance(why_not, dict)
    offered = why_not["ways_out"]
    assert isinstance(offered, list)
    said = [out["give_up"] for out in offered if isinstance(out, dict)]
    assert said == ["'the lamp carries a shade'", "'the shade is of glass'"]
