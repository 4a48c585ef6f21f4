"""Which lamp a caller has, and when it no longer matters, on the demo book."""

from __future__ import annotations

import numpy as np
import pytest
from tests.support.demo import demo

from wickwright.answers.goes_on import foreign_parts
from wickwright.answers.which_lamp import WhichLamp, asking_of, which_lamp
from wickwright.answers.which_parts import UnknownNameError
from wickwright.fit.routes import Routes
from wickwright.recognise.asking import Model, Saw, Stop, Unsure

ASKING = asking_of(demo())


def answered(call: WhichLamp, lamp: str) -> WhichLamp:
    """Answer every look rightly for a lamp as sold, until asking stops."""
    place = next(p for p, g in enumerate(ASKING.guesses.all) if g.lamp == lamp)
    for _ in range(30):
        looks = call.recognition.looks
        if not looks:
            break
        sight = ASKING.sight(looks[0].look)
        on = ASKING.guesses.on[sight.look.kind]
        part = int(np.argmax(on.share[place]))
        if sight.is_measured:
            call = call.told(Unsure(sight.look.id))
        else:
            best = int(np.argmax(sight.rows[part, :-1]))
            call = call.told(Saw(sight.look.id, sight.answers[best]))
    return call


@pytest.mark.parametrize("lamp", ["TY-103", "SA-206", "WH-302", "DU-401", "SO-501", "TU-604"])
def test_right_answers_lead_to_the_lamp(lamp: str) -> None:
    """A caller who answers rightly would be sent parts for another lamp."""
    found = answered(which_lamp(demo(), ASKING), lamp)
    assert found.recognition.stop is Stop.SETTLED
    assert list(demo().book.lamps)[found.recognition.lamps[0][0]] == lamp
    assert len(found.heard) <= 12


def test_what_is_sent_is_settled_before_the_model_is() -> None:
    """A caller with a broken glass would be asked what does not change the glass."""
    wish = which_lamp(demo(), ASKING, "renew-chimney", lost=("chimney",))
    model = answered(which_lamp(demo(), ASKING), "DU-406")
    answer = answered(wish, "DU-406")
    assert len(answer.heard) < len(model.heard)
    guess = ASKING.guesses.all[int(np.argmax(answer.recognition.beliefs.weights))]  # type: ignore[union-attr]
    sent = answer.answer(guess)
    assert isinstance(sent, Routes)
    truth = next(g for g in ASKING.guesses.all if g.lamp == "DU-406")
    assert answer.parcel(guess) == answer.parcel(truth)


def test_lamps_that_take_the_same_parcel_are_one_answer() -> None:
    """The adviser would go on asking which of them it is."""
    call = which_lamp(
        demo(), ASKING, "renew-chimney", lost=("chimney",), heard=(Model(("DU-401", "DU-403")),)
    )
    parcels = {
        call.parcel(g) for g in ASKING.guesses.all if g.lamp in {"DU-401", "DU-403"} and not g.kind
    }
    assert len(parcels) == 1


def test_a_foreign_part_goes_on_where_its_own_stood() -> None:
    """Lamps would be thought of that nobody can have put together."""
    foreign = foreign_parts(demo())
    kinds = {one.kind for changes in foreign.values() for one in changes}
    assert kinds <= set(demo().book.calls.swaps)
    burners = {one.parts[0] for one in foreign["DU-401"] if one.kind == "burner"}
    assert burners
    assert "BU-5100" not in burners


def test_an_answer_given_again_takes_the_place_of_the_first() -> None:
    """A corrected slip would count beside the slip."""
    look = which_lamp(demo(), ASKING).recognition.looks[0].look
    one, two = ASKING.sight(look).answers[:2]
    call = which_lamp(demo(), ASKING).told(Saw(look, one)).told(Saw(look, two))
    assert call.heard == (Saw(look, two),)
    assert call.back().heard == ()


def test_a_wish_that_is_not_in_the_book_is_refused() -> None:
    """A slip in a wish would end in a traceback after ten questions."""
    with pytest.raises(UnknownNameError):
        which_lamp(demo(), ASKING, "renew-chimny")


def test_where_doubt_remains_one_parcel_may_serve_all_that_is_likely() -> None:
    """A doubt that cannot be asked away would hold the parcel up for nothing."""
    heard = (Model(("DU-401", "DU-402", "DU-403")),)
    call = which_lamp(demo(), ASKING, "renew-mantle", lost=("mantle",), heard=heard)
    likely = call.likely(0.1)
    assert {guess.lamp for guess in likely} <= {"DU-401", "DU-402", "DU-403"}
    shared = call.serving_likely()
    assert shared is not None
    assert shared.purchases
    for guess in call.likely():
        assert shared.purchases[0].buy
        assert guess.lamp in call.asking.names
    assert which_lamp(demo(), ASKING).serving_likely() is None
