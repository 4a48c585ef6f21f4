from hypothesis import given
from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.fit.compiled import LENGTH_UNIT
from wickwright.fit.place import Place
from wickwright.orders.drafts import Drafts

elevations = st.floats(-400, 6000)


@given(elevations, elevations)
def test_places_of_one_sort_draw_alike(one: float, other: float) -> None:
    """If this failed, a chimney would be sent to a place where it starves the flame."""
    parts = demo().parts
    drafts = Drafts(parts)
    if drafts.sort_of(Place(one)) != drafts.sort_of(Place(other)):
        return
    for burner in parts:
        for chimney in parts:
            if burner.least_chimney and chimney.kind == "chimney" and chimney.height:
                high = round(chimney.height / LENGTH_UNIT) * LENGTH_UNIT + 1e-9
                assert (high >= Place(one).chimney_needed(burner.least_chimney)) == (
                    high >= Place(other).chimney_needed(burner.least_chimney)
                )


def test_a_mountain_is_another_sort_of_place_than_the_shore() -> None:
    """If this failed, every place would be taken for the shore."""
    drafts = Drafts(demo().parts)
    sorts = {drafts.sort_of(Place(float(at))) for at in range(0, 3000, 100)}
    assert 5 < len(sorts) <= 30
    assert drafts.sort_of(Place(-100.0)) == drafts.sort_of(Place(0.0))
