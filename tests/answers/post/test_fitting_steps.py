"""In which order parts come off and go on, and what is said of each."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.round_of_wishes import round_of_wishes

from wickwright.answers import Routes, which_parts
from wickwright.answers.post.fitting_steps import IN_THE_WAY, Do, fitting_steps
from wickwright.answers.post.step_words import before_fitting, first_lighting, step_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.answers.post.fitting_steps import Step
    from wickwright.catalogue.assembly import Assembly
    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route

Standing = dict[str, str]
"""Kind and number of what is on the lamp, to that of what it stands on."""


def _standing(assembly: Assembly) -> Standing:
    root = assembly.root
    below = {_key(child.part): _key(it.part) for it, child in assembly.joints()}
    standing = below if root is None else {_key(root.part): "", **below}
    return {key: carrier for key, carrier in standing.items() if not key.startswith("tool ")}


def _key(part: object) -> str:
    return f"{getattr(part, 'kind')} {getattr(part, 'id')}"  # noqa: B009 - of parts alone


def _found(
    lamp: str, wish: str, have: Sequence[str] = (), lost: Sequence[str] = (), at: float = 0.0
) -> tuple[Situation, Route]:
    answer = which_parts(demo(), lamp, wish, have=have, lost=lost, elevation=at)
    assert isinstance(answer, Routes)
    return answer.now, answer.routes[0]


def _said(steps: Sequence[Step]) -> list[str]:
    return [step_words(step) for step in steps]


def _above(key: str, here: Standing) -> list[str]:
    direct = [one for one, carrier in here.items() if carrier == key]
    return [*direct, *(more for one in direct for more in _above(one, here))]


def _taken_off(step: Step, here: Standing) -> None:
    key = _key(step.part)
    assert here[key] == (_key(step.carrier) if step.carrier else "")
    along = _above(key, here)
    assert {*along} == {_key(part) for part in step.riders}, (step, here)
    for one in (key, *along):
        del here[one]


def _put_on(step: Step, here: Standing, promised: Standing) -> None:
    assert step.carrier is None or _key(step.carrier) in here, (step, here)
    for part in (step.part, *step.riders):
        assert part.kind not in {one.split()[0] for one in here}, (step, here)
        here[_key(part)] = promised[_key(part)]


def _in_the_way(step: Step, here: Standing) -> set[str]:
    kinds = {one.split()[0] for one in here} - {part.kind for part in step.riders}
    return kinds & {*IN_THE_WAY.get(step.part.kind, ())}


@pytest.mark.parametrize("at", range(4))
def test_every_step_finds_the_lamp_as_it_needs_it(at: int) -> None:
    """If this failed, a caller would be told to screw a burner onto a font that is not there.

    The steps are followed on a lamp of bare names: what comes off is there, and has nothing on
    it but what comes along; what goes on finds its carrier there, and nothing in its way; and
    what comes of it is the lamp that was promised.
    """
    asked = round_of_wishes()[at::4]
    assert len(asked) > 15
    for now, route in asked:
        here, promised = _standing(now.now), _standing(route.assembly)
        for step in fitting_steps(now, route):
            assert _in_the_way(step, here) == set(), (now.request, step)
            if step.do is Do.ON:
                _put_on(step, here, promised)
            else:
                _taken_off(step, here)
        assert here == promised, now.request


def test_a_broken_glass_on_a_seat_that_gives_way() -> None:
    """If this failed, the demo caller could not fit her new chimney from the sheet."""
    now, route = _found("WH-302", "renew-chimney", lost=["chimney"], at=1700.0)
    assert _said(fitting_steps(now, route)) == [
        (
            "Take away what is left of the chimney CH-2296, with gloves, and look that no splinter "
            "stays behind."
        ),
        (
            "Lift the mantle MA-2100 off the gallery GA-2410 by its ring or stem, never by the "
            "web. It goes back on."
        ),
        (
            "Turn the gallery GA-2410 back until it is free, and lift it off the burner BU-2200. "
            "It is not used again."
        ),
        (
            "Set the gallery GA-2450 on the burner BU-2200 and turn it gently until it locks. "
            "Never force it."
        ),
        (
            "Set the mantle MA-2100 on its seat on the gallery GA-2450, holding it by its ring or "
            "stem. Do not touch the web."
        ),
        (
            "Hold the chimney CH-3371 low down and push it straight into the spring fingers of the "
            "gallery GA-2450 until it sits upright. Do not twist it."
        ),
    ]


def test_a_burner_goes_aside_with_all_that_belongs_to_it() -> None:
    """If this failed, a lamp turned to a bulb would be taken to pieces that nobody needs."""
    now, route = _found("TY-103", "to-electric")
    steps = fitting_steps(now, route)
    assert [(step.do, step.part.kind) for step in steps] == [
        (Do.ASIDE, "chimney"),
        (Do.ASIDE, "burner"),
        (Do.ON, "burner"),
        (Do.ON, "bulb"),
    ]
    assert [part.kind for part in steps[1].riders] == ["wick", "spreader", "gallery", "mantle"]
    assert _said(steps)[3] == (
        "With the plug pulled, put the bulb LB-2740 into the lampholder of the burner BU-7110. "
        "The lampholder takes no more than 60 W."
    )


def test_a_bulb_is_never_put_over_fuel() -> None:
    """If this failed, a caller could screw a bulb into a lamp full of kerosene."""
    now, route = _found("TY-103", "to-electric")
    told = before_fitting(now, fitting_steps(now, route))
    assert told[1] == (
        "Empty the font in the open, no flame near, clean it, and let it air until it smells of "
        "nothing. Never a bulb over fuel."
    )
    assert first_lighting(now, route)[0] == (
        "Have the flex, plug and lampholder looked at by someone licensed, by the local electrical "
        "code, before the plug goes in."
    )


def test_a_flat_wick_lamp_is_told_nothing_of_mantles() -> None:
    """If this failed, a caller would look for a mantle that such a lamp does not have."""
    told = {}
    for lamp in ("TU-601", "DU-401"):
        now, route = _found(lamp, "renew-wick")
        told[lamp] = " ".join(first_lighting(now, route))
    assert "mantle" not in told["TU-601"]
    assert "mantle" in told["DU-401"]
    assert all("10 to 15 minutes" in words for words in told.values())
    assert all("A new wick soaks for half an hour" in words for words in told.values())


def test_nothing_to_fit_has_no_steps() -> None:
    """If this failed, a caller who needs nothing would be told to take the lamp apart."""
    now, route = _found("DU-402", "add-shade")
    assert (route.buy, fitting_steps(now, route), before_fitting(now, ())) == ((), (), ())
