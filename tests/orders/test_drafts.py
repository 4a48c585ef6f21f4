import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.catalogue.records import Part
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
                draws = [
                    round(chimney.height / LENGTH_UNIT) * down
                    >= round(burner.least_chimney / LENGTH_UNIT) * up
                    for up, down in (Place(one).scale, Place(other).scale)
                ]
                assert draws[0] == draws[1], (burner.id, chimney.id)


@pytest.mark.parametrize("near", [324.2, 356.2])
def test_a_place_is_told_from_the_next_where_a_chimney_stops_drawing(near: float) -> None:
    """If this failed, two places a step apart on a chimney's limit would be one, or none would."""
    short = Part("CH-1", "short", "chimney", height=near / 1000)
    burner = Part("BU-1", "burner", "burner", least_chimney=0.29)
    drafts = Drafts([short, burner])
    lowest, highest = 0.0, 6000.0
    while highest - lowest > 1e-6:
        middle = (lowest + highest) / 2
        draws = drafts.sort_of(Place(middle)) == drafts.sort_of(Place(0.0))
        lowest, highest = (middle, highest) if draws else (lowest, middle)
    assert Place(lowest).chimney_needed(0.29) == pytest.approx(near / 1000, abs=1e-5)


def test_a_mountain_is_another_sort_of_place_than_the_shore() -> None:
    """If this failed, every place would be taken for the shore."""
    drafts = Drafts(demo().parts)
    sorts = {drafts.sort_of(Place(float(at))) for at in range(0, 3000, 100)}
    assert 5 < len(sorts) <= 30
    assert drafts.sort_of(Place(-100.0)) == drafts.sort_of(Place(0.0))
