import pytest
from tests.support.demo import demo

from wickwright.answers import Routes, which_parts
from wickwright.answers.words.reason_words import reasons_words
from wickwright.answers.words.reasons import Why, reasons
from wickwright.terms.units import Units


def _why(lamp: str, wish: str, part: str, **more: float) -> tuple[list[Why], str]:
    """Return the reasons for a part in the first route that buys it."""
    answer = which_parts(demo(), lamp, wish, elevation=more.get("elevation", 0.0))
    assert isinstance(answer, Routes)
    route = next(one for one in answer.routes if part in {it.id for it in one.buy})
    found = reasons(demo(), answer.now, route)[part]
    return [one.why for one in found], reasons_words(found, Units())


@pytest.mark.parametrize(
    ("lamp", "wish", "part", "why", "words"),
    [
        (
            "WH-302",
            "renew-chimney",
            "GA-2450",
            [Why.INSTEAD, Why.CONVERTS],
            (
                "your gallery GA-2410 does not take CH-3296: the gallery is made for a "
                "quarter-turn foot, and the chimney for spring fingers; CH-2296 was replaced by "
                "CH-3296, which needs this gallery"
            ),
        ),
        (
            "WH-302",
            "renew-chimney",
            "CH-3296",
            [Why.ASKED, Why.FOLLOWS],
            "a new chimney, as you asked; replaced CH-2296, which is no longer made",
        ),
        (
            "WH-302",
            "renew-chimney",
            "WI-2100",
            [Why.FOLLOWS],
            "replaced WI-2050, which is no longer made",
        ),
        (
            "TY-105",
            "add-shade",
            "SH-1980",
            [Why.FRESH],
            "in place of your shade SH-1984, which is sold while stocks last",
        ),
        (
            "DU-401",
            "add-glass-shade",
            "HO-2164",
            [Why.CARRIES],
            "carries the shade SH-1640",
        ),
        (
            "DU-401",
            "to-electric",
            "BU-7200",
            [Why.ONLY],
            "so that the lamp runs on electricity, with no fuel in the font",
        ),
    ],
)
def test_each_part_is_bought_for_a_reason(
    lamp: str, wish: str, part: str, why: list[Why], words: str
) -> None:
    """If this failed, an adviser would sell a part and not know why."""
    assert _why(lamp, wish, part) == (why, words)


def test_a_chimney_that_starves_high_up_is_the_reason_for_a_taller_one() -> None:
    """If this failed, the caller would not hear that the old chimney starves the flame."""
    why, words = _why("DU-401", "suit-place", "CH-3371", elevation=1700.0)
    assert why == [Why.INSTEAD]
    assert words == (
        "with your chimney CH-3296: Chimney, plain foot, standard (CH-3296) is 296.0 mm tall; "
        "at 1,700 m Kame burner (BU-3200) needs at least 323.0 mm"
    )


@pytest.mark.parametrize("lamp", ["TY-105", "SA-202", "WH-305", "SO-503", "TU-603", "BX-704"])
def test_no_part_is_bought_without_a_reason(lamp: str) -> None:
    """If this failed, a part of some route would stand without a word."""
    for wish in ("renew-chimney", "complete-with-shade", "to-oil", "brighter"):
        answer = which_parts(demo(), lamp, wish)
        for route in answer.routes if isinstance(answer, Routes) else ():
            found = reasons(demo(), answer.now, route)
            assert [*found] == [part.id for part in route.buy]
            assert all(reasons_words(one, Units()) for one in found.values())


def test_a_lost_part_is_made_good() -> None:
    """If this failed, a broken part would look like a new wish."""
    answer = which_parts(demo(), "DU-402", "renew-wick", lost=("shade",))
    assert isinstance(answer, Routes)
    found = reasons(demo(), answer.now, answer.routes[0])
    shade = next(part for part in answer.routes[0].buy if part.kind == "shade")
    assert reasons_words(found[shade.id], Units()).startswith("makes good the lost shade")
