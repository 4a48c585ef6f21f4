"""Which lamp it is, judged by going through every lamp and every slip by hand."""

from __future__ import annotations

from math import exp, hypot, log2, pi, sqrt
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickwright.catalogue.call_records import CallBook, Look, Mark, Often, Swap, Way
from wickwright.catalogue.records import Book, Family, Form, Lamp, Part, Service
from wickwright.recognise.asking import (
    Asking,
    Bought,
    Heard,
    Measured,
    Model,
    Recognition,
    Saw,
    Stop,
    Unsure,
    recognised,
)
from wickwright.recognise.guesses import Foreign, guesses, usual_companions
from wickwright.recognise.looks import ABSENT, sights

if TYPE_CHECKING:
    from wickwright.chance.beliefs import Beliefs

PARTS = {
    "B1": "burner",
    "B2": "burner",
    "F1": "base",
    "F2": "base",
    "F3": "base",
    "S1": "shade",
    "S2": "shade",
}
LAMPS = {
    "L1": (("F1", "B1", "S1"), 60, 1920, 1940),
    "L2": (("F2", "B1"), 30, 1930, 1950),
    "L3": (("F3", "B2"), 10, 1960, None),
}
MARKS = (
    Mark("F1", "foot", "round"),
    Mark("F2", "foot", "claws", "paws", Often.OFTEN),
    Mark("F3", "foot", "paws"),
    Mark("F1", "tall", "100 mm"),
    Mark("F2", "tall", "120 mm"),
    Mark("F3", "tall", "121 mm"),
    Mark("B1", "knob", "milled"),
    Mark("B2", "knob", "plain"),
    Mark("S1", "colour", "green"),
    Mark("S2", "colour", "white"),
)
LOOKS = (
    Look("foot", "base", "What foot?", Way.LOOK, 0.5, 0.95, 0.05),
    Look("tall", "base", "How tall?", Way.MEASURE, 2.0, 0.95, 0.10, 0.003),
    Look("knob", "burner", "What knob?", Way.FEEL, 1.0, 0.90, 0.08),
    Look("colour", "shade", "What colour?", Way.LOOK, 0.2, 0.90, 0.02),
)
TALL = {"F1": 0.100, "F2": 0.120, "F3": 0.121}
FOREIGN = {
    "L1": (Foreign("burner", ("B2",), 1.0), Foreign("shade", ("S2",), 1.0)),
    "L2": (Foreign("burner", ("B2",), 1.0),),
    "L3": (Foreign("burner", ("B1",), 1.0),),
}
SWAPS = {"burner": Swap("burner", 0.2, "assumption"), "shade": Swap("shade", 0.4, "assumption")}


def book() -> Book:
    lamps = {
        key: Lamp(key, key, "f", Form.TABLE, Service.OIL, first, last, (), parts, in_use=count)
        for key, (parts, count, first, last) in LAMPS.items()
    }
    calls = CallBook(looks={look.id: look for look in LOOKS}, marks=MARKS, swaps=SWAPS)
    parts = {key: Part(key, key, kind) for key, kind in PARTS.items()}
    return Book({}, {"f": Family("f", "f")}, lamps, parts, {}, calls)


def asking() -> Asking:
    held = book()
    found = guesses(held, FOREIGN)
    lengths = {(part, "tall"): length for part, length in TALL.items()}
    years = np.array([(first, last or 9999) for _, _, first, last in LAMPS.values()], float)
    return Asking.of(found, sights(held.calls, found.on, lengths), tuple(LAMPS), years)


ASKING = asking()


def of(*heard: Heard, sure: float = 0.95) -> Recognition:
    return recognised(ASKING, heard, lambda _: ASKING.guesses.lamps, sure)


def lamps(found: Recognition) -> dict[str, float]:
    names = list(LAMPS)
    return {names[place]: chance for place, chance in found.lamps}


def by_hand(says: dict[str, str]) -> dict[str, float]:
    """Return the chance of each lamp from answers on foot, knob and colour."""
    weights = {}
    for lamp, (parts, count, *_) in LAMPS.items():
        own = next(p for p in parts if PARTS[p] == "burner")
        total = 0.0
        for burner in ("B1", "B2"):
            odds = 1.0 if burner == own else 0.2 / 0.8
            total += odds / 1.25 * _chance(parts, burner, says)
        weights[lamp] = count * total
    all_ = sum(weights.values())
    return {lamp: weight / all_ for lamp, weight in weights.items()}


def _chance(parts: tuple[str, ...], burner: str, says: dict[str, str]) -> float:
    chance = 1.0
    if "foot" in says:
        chance *= 0.95 * _foot(parts[0], says["foot"])
    if "knob" in says:
        right = {"B1": "milled", "B2": "plain"}[burner] == says["knob"]
        chance *= 0.92 * (0.90 if right else _wrong(0.10, 2))
    if "colour" in says:
        if "S1" not in parts:
            chance *= 0.98 * (0.02 / 2)
        else:
            green = 0.6 if says["colour"] == "green" else 0.4
            chance *= 0.98 * (green * 0.90 + (1 - green) * _wrong(0.10, 2))
    return chance


def _wrong(share: float, others: int) -> float:
    return share / others


def _foot(part: str, said: str) -> float:
    """Answers: round, claws, paws, none. Claws are often taken for paws."""
    truth = {"F1": "round", "F2": "claws", "F3": "paws"}[part]
    if part == "F2":
        pull = {"round": 1.0, "paws": 30.0, ABSENT: 1.0}
        return 0.80 if said == "claws" else 0.20 * pull[said] / 32.0
    return 0.95 if said == truth else _wrong(0.05, 3)


@pytest.mark.parametrize(
    "says",
    [
        {},
        {"foot": "claws"},
        {"foot": "paws"},
        {"foot": "paws", "knob": "milled"},
        {"colour": "white"},
        {"foot": "round", "knob": "plain", "colour": "green"},
    ],
)
def test_beliefs_are_those_of_every_lamp_gone_through_by_hand(says: dict[str, str]) -> None:
    """The lamp shown to an adviser would not follow from what the caller said."""
    found = lamps(of(*(Saw(look, value) for look, value in says.items())))
    if "colour" in says and "foot" not in says:
        assert found["L1"] > 0.97
    else:
        assert found == pytest.approx(by_hand(says), abs=1e-12)


def test_a_measured_height_counts_by_how_far_it_is_off() -> None:
    """A ruler's reading would be taken for exact, or thrown into a bin."""
    found = lamps(of(Measured("tall", 0.119)))

    def bell(truth: float) -> float:
        spread = hypot(0.003, 0.02 * truth)
        return exp(-0.5 * ((0.119 - truth) / spread) ** 2) / (sqrt(2 * pi) * spread)

    slip = 0.05 / (1.5 * 0.121)
    weights = {
        lamp: LAMPS[lamp][1] * (0.95 * bell(TALL[LAMPS[lamp][0][0]]) + slip) for lamp in LAMPS
    }
    total = sum(weights.values())
    assert found == pytest.approx({k: w / total for k, w in weights.items()}, abs=1e-12)


heard = st.lists(
    st.one_of(
        st.builds(Saw, st.just("foot"), st.sampled_from(["round", "claws", "paws", ABSENT])),
        st.builds(Saw, st.just("knob"), st.sampled_from(["milled", "plain"])),
        st.builds(Measured, st.just("tall"), st.floats(0.05, 0.3)),
        st.builds(Unsure, st.sampled_from(["foot", "knob", "colour"])),
        st.builds(Bought, st.integers(1900, 2020)),
        st.builds(Model, st.sampled_from([("L1",), ("L2", "L3")])),
    ),
    max_size=6,
    unique_by=lambda one: getattr(one, "look", type(one).__name__),
)


@given(heard)
def test_the_order_of_what_is_said_does_not_matter(told: list[Heard]) -> None:
    """Two advisers who ask in another order would send other parts."""
    mixed = sorted(told, key=repr)
    first, second = of(*told), of(*mixed)
    assert lamps(first) == pytest.approx(lamps(second), abs=1e-9)


@given(heard)
def test_not_knowing_moves_nothing(told: list[Heard]) -> None:
    """A caller who does not know would be taken to have said something."""
    asked = {getattr(one, "look", "") for one in told}
    if "colour" not in asked:
        assert lamps(of(*told)) == pytest.approx(lamps(of(*told, Unsure("colour"))), abs=1e-12)


def test_what_was_asked_is_not_asked_again() -> None:
    """A caller errs the same way twice: the second answer would be counted as new."""
    for one in (Saw("foot", "claws"), Unsure("foot")):
        assert "foot" not in {look.look for look in of(one).looks}
    assert "foot" in {look.look for look in of().looks}


def test_looks_are_ranked_by_what_they_spare_by_the_minute() -> None:
    """The caller would be sent for a ruler before being asked what is in plain sight."""
    found = of().looks
    assert [look.a_minute for look in found] == sorted(
        (look.a_minute for look in found), reverse=True
    )
    assert found[0].look == "colour"
    assert found[0].apart == ("L1", "L2")


def bits(found: Recognition) -> float:
    return -sum(chance * log2(chance) for _, chance in found.lamps)


@pytest.mark.parametrize("sure", [0.7, 0.9, 0.999])
def test_what_a_look_spares_is_found_by_trying_every_answer(sure: float) -> None:
    """A look that settles the call at once would come after one that is only quick."""
    worth = {look.look: look for look in of(sure=sure).looks}
    settled = set()
    for sight, question in zip(ASKING.sights, ASKING.questions, strict=True):
        look = sight.look
        if look.id == "tall":
            continue
        said = [Saw(look.id, answer) for answer in sight.answers] + [Unsure(look.id)]
        after = [of(one, sure=sure) for one in said]
        chances = question.likelihood @ ASKING.guesses.weights / ASKING.guesses.weights.sum()
        left = [c * bits(then) for c, then in zip(chances, after, strict=True)]
        ends = [then.lamps[0][1] >= sure for then in after]
        settled.update(ends)
        spared = sum(one for one, end in zip(left, ends, strict=True) if end)
        told = bits(of()) - sum(left)
        assert worth[look.id].tells == pytest.approx(told, abs=1e-9)
        assert worth[look.id].a_minute == pytest.approx((told + spared) / (look.minutes + 0.25))
    assert settled == ({False} if sure > 0.99 else {False, True})


@given(heard, st.sampled_from([0.7, 0.9, 0.95]))
def test_the_order_of_looks_decides_nothing_of_when_asking_stops(
    told: list[Heard], sure: float
) -> None:
    """A call would end for want of a look, or go on when one answer is sure enough."""
    found = of(*told, sure=sure)
    if found.beliefs is None:
        return
    assert (found.stop is Stop.SETTLED) == (found.classes[0][1] >= sure)
    if found.stop is None:
        assert all(look.tells > 0.01 for look in found.looks)


def test_asking_stops_when_one_answer_is_sure() -> None:
    """The adviser would go on asking what no longer matters."""
    found = of(Saw("foot", "round"), Saw("knob", "milled"))
    assert (found.stop, found.looks) == (Stop.SETTLED, ())
    assert of().stop is None


def test_when_all_are_of_one_class_nothing_is_asked() -> None:
    """Lamps that take the same glass would be told apart for nothing."""
    one = np.zeros(len(ASKING.guesses.all), dtype=np.intp)
    assert recognised(ASKING, (), lambda _: one).stop is Stop.SETTLED


def test_classes_are_worked_out_from_the_beliefs() -> None:
    """What nobody can have would be worked out too."""
    seen: list[Beliefs] = []

    def classes(beliefs: Beliefs) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
        seen.append(beliefs)
        return ASKING.guesses.lamps

    recognised(ASKING, (Saw("foot", "round"),), classes)
    assert seen[0].share(ASKING.guesses.lamps)[0] > 0.9


def test_answers_that_clash_are_named() -> None:
    """A slip would be taken for evidence without a word."""
    odd = (Model(("L2", "L3")), Saw("foot", "round"))
    assert of(*odd).clash == odd
    assert of(Saw("foot", "round"), Saw("knob", "milled")).clash == ()


def test_a_year_it_was_not_made_makes_a_lamp_less_likely() -> None:
    """The year a lamp was bought would count for nothing, or for too much."""
    assert lamps(of(Bought(1970)))["L3"] > lamps(of())["L3"]
    assert 0.0 < lamps(of(Bought(1970)))["L1"] < lamps(of())["L1"]


def test_an_answer_a_look_does_not_have_is_refused() -> None:
    """A slip in a file of answers would be taken for something."""
    with pytest.raises(ValueError, match="not in tuple"):
        of(Saw("foot", "wheels"))
    with pytest.raises(KeyError):
        of(Saw("wings", "two"))


def test_a_burner_comes_with_what_most_lamps_in_use_had_beside_it() -> None:
    """A changed burner would come with a mantle it was never sold with."""
    held = book()
    parts = dict(held.parts) | {key: Part(key, key, "mantle") for key in ("M1", "M2")}
    more = {
        "L4": Lamp("L4", "L4", "f", Form.TABLE, Service.OIL, 1, 2, (), ("B1", "M1"), in_use=5),
        "L5": Lamp("L5", "L5", "f", Form.TABLE, Service.OIL, 1, 2, (), ("B1", "M2"), in_use=200),
    }
    wide = Book({}, held.families, {**held.lamps, **more}, parts, {}, held.calls)
    assert usual_companions(wide)["B1"] == ("M2",)
