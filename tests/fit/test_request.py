from __future__ import annotations

from dataclasses import replace

import pytest
from tests.support.small_book import PARTS, compiled_small, lamp, make_book, wish

from wickwright.catalogue.records import Ask, Service
from wickwright.fit.compiled import KIND_BITS, compile_book
from wickwright.fit.place import Place
from wickwright.fit.request import Claim, Request, Situation, claims_of, query_of, situation
from wickwright.fit.search.query import Aim, Query
from wickwright.fit.search.tree import Admits

COMPILED = compiled_small()
TO_OIL = wish(Ask("service", value="oil"))


def _looked_at(request: Request) -> Situation:
    return situation(COMPILED, request)


def _owned(request: Request) -> str:
    return " ".join(one.id for one in _looked_at(request).owned)


def _query(request: Request, *given_up: Claim) -> Query:
    now = _looked_at(request)
    claims = [one for one in claims_of(COMPILED, now) if one not in given_up]
    return query_of(COMPILED, now, claims)


def _kinds(bits: int) -> set[str]:
    return {kind for kind, bit in KIND_BITS.items() if bits & bit}


def _ids(flags: bytes) -> set[str]:
    return {one.id for one, flag in zip(COMPILED.parts, flags, strict=True) if flag}


# -- what is in hand ------------------------------------------------------------------------


def test_a_caller_has_the_lamp_as_sold() -> None:
    """A caller would be sold parts that were on the lamp when it left the works."""
    assert _owned(Request("table", wish())) == "B F U W GQ CQ"


def test_other_parts_take_the_place_of_their_kind() -> None:
    """A caller who changed the gallery would be taken to have two."""
    assert _owned(Request("table", wish(), have=("GP", "CP"))) == "B F U W GP CP"


def test_a_bare_find_is_only_what_is_named() -> None:
    """A font found in a barn would be taken to have a burner on it."""
    assert _owned(Request("table", wish(), have=("B", "F"), bare=True)) == "B F"


@pytest.mark.parametrize("lost", ["chimney", "CQ"])
def test_lost_parts_are_named_by_kind_or_number(lost: str) -> None:
    """A broken chimney would be used again, or not be made good."""
    now = _looked_at(Request("table", wish(), lost=(lost,)))
    assert [one.id for one in now.owned] == ["B", "F", "U", "W", "GQ"]
    assert now.replaces == ("chimney",)


def test_what_was_put_on_can_be_lost_too() -> None:
    """The part that a caller put on and broke would be used again."""
    now = _looked_at(Request("table", wish(), have=("CP",), lost=("CP",)))
    assert "chimney" not in {one.kind for one in now.owned}
    assert now.replaces == ("chimney",)


def test_a_number_the_lamp_does_not_carry_is_not_lost() -> None:
    """A part the caller never had would be made good."""
    now = _looked_at(Request("table", wish(), lost=("CP",)))
    assert now.replaces == ()
    assert [one.id for one in now.owned] == ["B", "F", "U", "W", "GQ", "CQ"]


def test_a_lost_kind_is_made_good_even_where_it_was_not_sold() -> None:
    """A caller who lost a shade that the lamp was not sold with would get none."""
    assert _looked_at(Request("table", wish(), lost=("shade",))).replaces == ("shade",)


def test_how_it_stood_includes_what_is_lost() -> None:
    """'The same foot as before' could not be answered once the glass is broken."""
    now = _looked_at(Request("table", wish(), lost=("chimney",)))
    chimney = now.now.of_kind("chimney")
    assert chimney
    assert chimney.part.id == "CQ"


def test_light_is_that_of_the_whole_lamp() -> None:
    """More light would be measured against a lamp with its bulb broken."""
    assert _looked_at(Request("bulb", wish(), lost=("bulb",))).light == 160


@pytest.mark.parametrize(
    ("request_", "service"),
    [
        (Request("table", wish()), Service.OIL),
        (Request("bulb", wish()), Service.ELECTRIC),
        (Request("table", wish(), have=("E", "L")), Service.ELECTRIC),
        (Request("bulb", wish(), have=("B", "F"), bare=True), Service.ELECTRIC),
        (Request("bulb", wish(), have=("U",)), Service.OIL),
    ],
)
def test_the_burner_tells_the_service(request_: Request, service: Service) -> None:
    """A lamp converted to a bulb would be treated as one for oil, or the reverse."""
    assert _looked_at(request_).service is service


@pytest.mark.parametrize(
    ("request_", "keeps"),
    [
        (Request("table", wish()), ()),
        (Request("shaded", wish()), ("shade",)),
        (Request("shaded", wish(), lost=("shade",)), ()),
        (Request("table", wish(), have=("HR",)), ()),
        (Request("hanging", wish()), ("bell",)),
        (Request("hanging", wish(), lost=("BE",)), ()),
        (Request("hanging", wish(), have=("BH", "F"), bare=True), ("bell",)),
        (Request("bulb", wish(), have=("CP",)), ("chimney", "shade")),
    ],
)
def test_accessories_and_needs_are_kept(request_: Request, keeps: tuple[str, ...]) -> None:
    """A shade or bell would vanish from the lamp because leaving it off is cheaper."""
    assert _looked_at(request_).keeps == keeps


def test_what_is_lost_is_made_good_and_not_kept() -> None:
    """A lost bell would be asked for twice in the explanation."""
    now = _looked_at(Request("hanging", wish(), lost=("bell",)))
    assert (now.keeps, now.replaces) == ((), ("bell",))


def test_a_hanging_lamp_turned_to_oil_needs_a_bell() -> None:
    """An electric hanging lamp would be turned to oil with nothing over the flame."""
    hung = lamp("hung", "BH F E L", service=Service.ELECTRIC)
    compiled = compile_book(
        make_book(PARTS, hung, lamp("table", "B F E L", service=Service.ELECTRIC))
    )
    assert situation(compiled, Request("hung", TO_OIL)).keeps == ("bell",)
    assert situation(compiled, Request("hung", wish())).keeps == ()
    assert situation(compiled, Request("table", TO_OIL)).keeps == ()


def test_a_part_is_found_by_its_kind() -> None:
    """An answer could not say which gallery the caller has."""
    now = _looked_at(Request("table", wish(), lost=("chimney",)))
    found = now.owned_of("gallery")
    assert found
    assert found.id == "GQ"
    assert now.owned_of("chimney") is None


# -- what is insisted on --------------------------------------------------------------------


def test_claims_run_from_the_laws_of_parts_to_the_words_of_the_wish() -> None:
    """A caller would be told to give up the wish although the budget is in the way."""
    asks = wish(Ask("present", "shade"))
    now = _looked_at(Request("hanging", asks, lost=("chimney",), budget=100))
    sorts = list(dict.fromkeys(one.sort for one in claims_of(COMPILED, now)))
    assert sorts == [
        "joint",
        "heat",
        "draft",
        "tip",
        "available",
        "keep",
        "replace",
        "budget",
        "service",
        "ask",
    ]


def test_each_claim_is_made_once() -> None:
    """A conflict would name the same thing twice."""
    claims = claims_of(COMPILED, _looked_at(Request("shaded", wish(), lost=("chimney",))))
    assert len(claims) == len(set(claims))


def test_the_service_goes_without_saying_unless_it_is_asked() -> None:
    """A lamp would change from oil to electric because that is cheaper."""
    plain = claims_of(COMPILED, _looked_at(Request("table", wish())))
    asked = claims_of(COMPILED, _looked_at(Request("table", TO_OIL)))
    assert Claim("service", "oil") in plain
    assert not any(one.sort == "service" for one in asked)


# -- what is asked of the search ------------------------------------------------------------


def test_a_renewed_part_is_not_used_again() -> None:
    """A new chimney would be answered with the old one."""
    query = _query(Request("table", wish(Ask("renew", "chimney"))))
    assert COMPILED.numbers["CQ"] not in query.owned
    assert _kinds(query.required) == {"chimney"}


def test_an_ask_given_up_is_forgotten() -> None:
    """Ways out would still hold the caller to what was given up."""
    request = Request("table", wish(Ask("renew", "chimney"), Ask("present", "shade")))
    query = _query(request, Claim("ask", "chimney", 0))
    assert COMPILED.numbers["CQ"] in query.owned
    assert _kinds(query.required) == {"shade"}


def test_kept_and_replaced_kinds_are_required() -> None:
    """A shade would vanish, or a lost bell stay lost."""
    query = _query(Request("shaded", wish(), lost=("chimney",)))
    assert _kinds(query.required) == {"shade", "chimney"}


def test_absent_wins_over_keeping() -> None:
    """A caller who wants the shade off would be told that it must stay."""
    query = _query(Request("shaded", wish(Ask("absent", "shade"))))
    assert _kinds(query.required) == set()
    assert not _ids(query.usable) & {"SG", "SB", "SC"}


def test_base_and_font_are_bought_only_where_they_are_missing() -> None:
    """A wish for a shade would be answered with another lamp below it."""
    assert "F" not in _ids(_query(Request("table", wish())).buyable)
    assert "F" in _ids(_query(Request("table", wish(), lost=("font",))).buyable)
    assert "F" in _ids(_query(Request("table", wish(Ask("renew", "font")))).buyable)


def test_the_other_service_is_neither_used_nor_bought() -> None:
    """A wick would be offered for a lamp that runs on a bulb."""
    oil, electric = (_query(Request(key, wish())) for key in ("table", "bulb"))
    assert not _ids(oil.usable) & {"E", "L", "L9"}
    assert not _ids(electric.usable) & {"U", "V", "VK", "W", "W2", "GV"}
    assert electric.dry
    assert not oil.dry


def test_more_light_becomes_a_limit_above_the_light_it_has() -> None:
    """'A tenth more' would be measured from nothing, or of two asks the smaller would count."""
    brighter = wish(Ask("brighter", value="10"), Ask("brighter", value="18"))
    query = _query(Request("bulb", brighter))
    assert query.most == {Aim.SHORTFALL: -178}
    assert query.aims == (Aim.PRICE, Aim.BOUGHT, Aim.DYING, Aim.SHORTFALL)


def test_more_light_without_a_figure_is_any_more() -> None:
    """'Brighter' without a number would be met by a lamp exactly as bright."""
    assert _query(Request("bulb", wish(Ask("brighter")))).most == {Aim.SHORTFALL: -161}


def test_a_budget_limits_the_price_until_it_is_given_up() -> None:
    """A caller would be shown routes that cost more than there is to spend."""
    request = Request("table", wish(), budget=500)
    assert _query(request).most == {Aim.PRICE: 500}
    assert _query(request, Claim("budget")).most == {}


def test_a_free_lamp_may_cost_nothing() -> None:
    """A budget of nothing would be taken for no budget."""
    assert _query(Request("table", wish(), budget=0)).most == {Aim.PRICE: 0}


def test_laws_given_up_are_switched_off() -> None:
    """Ways out would be sought with the law still in force that is in the way."""
    request = Request("table", wish(), place=Place(1700.0))
    assert _query(request).scales == ((1, 1), Place(1700.0).scale)
    assert _query(request, Claim("heat")).scales[0] == (0, 1)
    assert _query(request, Claim("heat")).openings == ((),)
    assert _query(request, Claim("draft")).scales == ((1, 1), (0, 1))
    assert _query(request).pivots == COMPILED.pivots
    assert _query(request, Claim("tip")).pivots == {}


def test_a_joint_given_up_lets_misfits_in() -> None:
    """'If the chimney fitted' could not be answered."""
    request = Request("table", wish())
    joints = {
        one.subject: one for one in claims_of(COMPILED, _looked_at(request)) if one.sort == "joint"
    }
    seat = joints["gallery: chimney"]
    assert COMPILED.atoms[seat.index] == ("gallery", "chimney")
    assert _query(request).loose == frozenset()
    assert _query(request, seat).loose == {seat.index}


def test_stock_given_up_lets_in_what_is_gone() -> None:
    """'If it could still be had' could not be answered."""
    request = Request("table", wish())
    assert "CQ" not in _ids(_query(request).buyable)
    assert "CQ" in _ids(_query(request, Claim("available", "chimney")).buyable)


def test_as_many_as_asked_must_be_there() -> None:
    """Seven lamps would be promised six fonts."""
    for count, had in ((6, True), (7, False)):
        query = _query(Request("table", wish(), lost=("font",), count=count))
        assert ("F" in _ids(query.buyable)) is had


def test_any_way_asks_for_no_cost() -> None:
    """Asking whether there is a way at all would cost as much as finding the best."""
    now = _looked_at(Request("table", wish(), budget=5))
    claims = claims_of(COMPILED, now)
    assert query_of(COMPILED, now, claims, any_way=True).aims == (Aim.PRICE,)
    assert query_of(COMPILED, now, [], any_way=True).aims == ()


def test_masks_of_unlike_questions_are_unlike() -> None:
    """What is remembered for one question would answer another."""
    requests = (
        Request("table", wish()),
        Request("table", wish(), lost=("font",)),
        Request("table", wish(), count=2),
        Request("table", wish(Ask("absent", "shade"))),
        Request("bulb", wish()),
    )
    queries = [_query(one) for one in requests]
    queries.append(
        query_of(
            COMPILED,
            _looked_at(requests[0]),
            claims_of(COMPILED, _looked_at(requests[0])),
            admits=Admits.UNSURE,
        )
    )
    for one in queries:
        for other in queries:
            alike = (one.buyable, one.usable) == (other.buyable, other.usable)
            assert (one.masks == other.masks) is alike
    assert len({query.masks for query in queries}) > 1
    assert replace(queries[0]).masks == _query(requests[0]).masks
