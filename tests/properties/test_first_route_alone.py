"""The first route found alone, against all routes with all that is said of them."""

from __future__ import annotations

import random

import pytest
from tests.support.demo import demo

from wickwright.answers.which_lamp import asking_of, which_lamp
from wickwright.answers.which_parts import request_of
from wickwright.fit.routes import NotKnown, Routes, cheapest, routes

OPEN = ("TU-604", "no-soda-glass")
"""A lamp and a wish of which it is not known whether it can be had."""


@pytest.mark.parametrize("elevation", [0.0, 2124.0])
def test_what_is_bought_first_is_the_same_without_the_rest(elevation: float) -> None:
    """Lamps would be told apart by another parcel than the one that is sent."""
    rng = random.Random(7)
    book = demo().book
    parts = [key for key, part in book.parts.items() if part.kind != "tool"]
    cases = [(rng.choice(list(book.lamps)), rng.choice(list(book.wishes))) for _ in range(40)]
    asked = [(*OPEN, []), *((*case, rng.sample(parts, k=1)) for case in cases)]
    kinds = set()
    for lamp, wish, have in asked:
        request = request_of(demo(), lamp, wish, have, elevation=elevation)
        alone, answer = cheapest(demo(), request), routes(demo(), request)
        assert alone.answer is type(answer)
        told = answer.routes[0].buy if isinstance(answer, Routes | NotKnown) else ()
        assert alone.buy == told
        kinds.add(alone.answer)
    assert len(kinds) > 2


def test_what_is_sent_for_a_guess_is_its_first_route() -> None:
    """The adviser would stop asking when the first routes still differ."""
    asking = asking_of(demo())
    call = which_lamp(demo(), asking, "renew-chimney", lost=("chimney",), elevation=2124.0)
    for guess in random.Random(5).sample(list(asking.guesses.all), k=25):
        answer = call.answer(guess)
        if isinstance(answer, Routes):
            ids = sorted(part.id for part in answer.routes[0].buy)
            assert call.parcel(guess) == ("send", *ids)
        else:
            assert call.parcel(guess)[0] in {"no route", "measure first"}
