from __future__ import annotations

from dataclasses import replace
from itertools import combinations, permutations
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.small_book import PARTS, compiled_small, small_book, wish

from wickwright.catalogue.records import Ask, Book, Status
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.fit.light import searched
from wickwright.fit.request import Request
from wickwright.fit.routes import Impossible, Routes, routes
from wickwright.fit.search.query import Found, GaveUp
from wickwright.fit.shared import Purchase, serving_all

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickwright.catalogue.records import Part
    from wickwright.fit.request import Situation
    from wickwright.fit.search.effort import Effort
    from wickwright.fit.search.query import Query

NEW_CHIMNEY = wish(Ask("renew", "chimney"))
NEW_WICK = wish(Ask("renew", "wick"))
OLD = Request("table", NEW_WICK)
NEW = Request("table", NEW_WICK, have=("R", "V", "GV", "CP", "W2"))
"""The same lamp with the old burner, and with the new one."""


def _ids(parts: Iterable[Part]) -> str:
    return " ".join(part.id for part in parts)


def _bought(purchases: Iterable[Purchase]) -> list[tuple[str, int]]:
    return [(_ids(one.buy), one.price) for one in purchases]


def test_lamps_alike_are_served_alike() -> None:
    """A caller who does not know which lamp it is would be asked, though it does not matter."""
    found = serving_all(
        compiled_small(), [Request(key, NEW_CHIMNEY) for key in ("table", "shaded", "hanging")]
    )
    assert found.groups == ((0, 1, 2),)
    assert found.complete
    assert _bought(found.purchases) == [("GP CP", 6300)]
    assert [_ids(one.buy) for one in found.purchases[0].routes] == ["GP CP"] * 3


def test_a_lamp_takes_only_what_it_needs_of_the_purchase() -> None:
    """A lamp that has the gallery would be told to buy it for the sake of the other."""
    requests = [Request("table", NEW_CHIMNEY), Request("table", NEW_CHIMNEY, have=("GP",))]
    (only,) = serving_all(compiled_small(), requests).purchases
    assert (_ids(only.buy), only.price) == ("GP CP", 6300)
    assert [_ids(one.buy) for one in only.routes] == ["GP CP", "CP"]


def test_what_each_lamp_needs_is_put_together() -> None:
    """Two wicks, one for each lamp it could be, would not be found to serve both."""
    found = serving_all(compiled_small(), [OLD, NEW])
    assert found.groups == ((0,), (1,))
    assert _bought(found.purchases) == [("W W2", 3000)]
    assert [_ids(one.buy) for one in found.purchases[0].routes] == ["W", "W2"]


def test_one_part_that_serves_both_beats_one_for_each() -> None:
    """A purchase would be larger than it must, because each lamp was looked at by itself."""
    both = replace(_part("W"), id="W3", price=2900, status=Status.MADE, stock=None)
    both = replace(both, ports=(*both.ports, replace(_part("W2").ports[0], name="other")))
    found = serving_all(compile_book(small_book(both)), [OLD, NEW])
    assert found.complete
    assert _bought(found.purchases) == [("W3", 2900)]
    dear = replace(both, price=3100)
    found = serving_all(compile_book(small_book(dear)), [OLD, NEW])
    assert found.complete
    assert _bought(found.purchases) == [("W W2", 3000), ("W3", 3100)]


def _part(key: str) -> Part:
    return next(one for one in PARTS if one.id == key)


def test_the_order_of_the_lamps_does_not_matter() -> None:
    """Another purchase would be shown when the caller names the lamps in another order."""
    requests = [OLD, NEW, Request("hanging", NEW_CHIMNEY)]
    seen = {
        tuple(sorted((one.price, *sorted(_ids(one.buy).split())) for one in found.purchases))
        for found in (serving_all(compiled_small(), order) for order in permutations(requests))
    }
    assert len(seen) == 1


def test_where_one_lamp_cannot_be_helped_nothing_serves_all() -> None:
    """A purchase would be said to serve a lamp that nothing can serve."""
    hopeless = Request("bulb", wish(Ask("brighter", value="500")))
    found = serving_all(compiled_small(), [OLD, hopeless])
    assert isinstance(found.answers[0], Routes)
    assert isinstance(found.answers[1], Impossible)
    assert (found.purchases, found.groups, found.complete) == ((), ((0,),), True)


def test_a_search_for_what_serves_all_that_gave_up_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A caller would be told that nothing else serves all, though nobody looked."""
    whole = serving_all(compiled_small(), [OLD, NEW])
    for allowed in range(6):
        left = [allowed]

        def tiring(
            compiled: Compiled, now: Situation, query: Query, _: Effort, left: list[int] = left
        ) -> Found | GaveUp:
            left[0] -= 1
            return searched(compiled, now, query) if left[0] >= 0 else GaveUp(1)

        monkeypatch.setattr("wickwright.fit.shared.searched", tiring)
        found = serving_all(compiled_small(), [OLD, NEW])
        assert whole.complete
        assert not found.complete
        assert set(_bought(found.purchases)) <= set(_bought(whole.purchases))


def test_what_serves_all_keeps_to_the_budget() -> None:
    """Two purchases, each within the budget, would be put together beyond it."""
    for budget, bought in ((3000, [("W W2", 3000)]), (2999, [])):
        requests = [replace(one, budget=budget) for one in (OLD, NEW)]
        assert _bought(serving_all(compiled_small(), requests).purchases) == bought


def test_nothing_to_buy_serves_all() -> None:
    """Lamps that are whole would be sold something for being two."""
    found = serving_all(compiled_small(), [Request("table", wish()), Request("shaded", wish())])
    assert _bought(found.purchases) == [("", 0)]
    assert found.groups == ((0, 1),)


def test_no_lamps_need_nothing() -> None:
    """Asking for no lamp would fail."""
    found = serving_all(compiled_small(), [])
    assert (found.answers, found.groups, found.purchases, found.complete) == ((), (), (), True)


# -- against trying every purchase ----------------------------------------------------------


def _sells_only(book: Book, keys: Sequence[str]) -> Compiled:
    """The book with nothing on sale but some parts."""
    parts = {
        key: it if key in keys else replace(it, status=Status.GONE, price=None)
        for key, it in book.parts.items()
    }
    return compile_book(replace(book, parts=parts))


def _by_trying(book: Book, requests: Sequence[Request]) -> set[tuple[int, int]]:
    """Price and size of every unbeaten purchase of at most four parts, by trying all."""
    sold = [key for key, it in book.parts.items() if it.price is not None]
    costs: set[tuple[int, int]] = set()
    for size in range(5):
        for keys in combinations(sold, size):
            price = sum(book.parts[key].price or 0 for key in keys)
            if any(a <= price and b <= size for a, b in costs):
                continue
            compiled = _sells_only(book, keys)
            if all(isinstance(routes(compiled, one), Routes) for one in requests):
                costs.add((price, size))
    return {
        one
        for one in costs
        if not any(a <= one[0] and b <= one[1] for a, b in costs if (a, b) != one)
    }


def _few() -> Book:
    """The small book without what these lamps never buy, so that all can be tried."""
    keep = "B BH F U V W W2 GQ GP GV CQ CP R BE".split()  # noqa: SIM905 - reads as a lamp
    book = small_book()
    lamps = {key: it for key, it in book.lamps.items() if set(it.as_sold) <= set(keep)}
    return replace(book, parts={key: book.parts[key] for key in keep}, lamps=lamps)


@pytest.mark.parametrize(
    "requests",
    [
        (OLD, NEW),
        (OLD, Request("hanging", NEW_CHIMNEY)),
        (Request("table", NEW_CHIMNEY, have=("GP",)), Request("hanging", wish(), lost=("bell",))),
        (NEW, Request("table", NEW_CHIMNEY)),
    ],
)
def test_purchases_are_those_found_by_trying_all(requests: tuple[Request, ...]) -> None:
    """A cheaper or smaller purchase that serves all lamps would be missed."""
    book = _few()
    found = serving_all(compile_book(book), requests)
    assert found.complete
    costs = {(one.price, len(one.buy)) for one in found.purchases}
    assert costs == _by_trying(book, requests)


@pytest.mark.parametrize("wanted", ["renew-chimney", "add-shade", "to-electric"])
def test_a_family_of_the_demo_is_served(wanted: str) -> None:
    """A purchase for a whole family would leave one of its lamps incomplete or unsafe."""
    book = demo().book
    family = [one.id for one in book.lamps.values() if one.family == "whimbrel"]
    found = serving_all(demo(), [Request(key, book.wishes[wanted]) for key in family])
    assert found.purchases
    for one in found.purchases:
        assert one.price == sum(part.price or 0 for part in one.buy)
        for route in one.routes:
            assert {part.id for part in route.buy} <= {part.id for part in one.buy}
        used = {part.id for route in one.routes for part in route.buy}
        assert used == {part.id for part in one.buy}
