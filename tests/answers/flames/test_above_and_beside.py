from __future__ import annotations

from functools import cache

import pytest
from tests.support.flames import demo_book, put_together
from tests.support.rooms import in_words

from wickwright.answers.flames.above_and_beside import WOOD, above_and_beside, column_over
from wickwright.burn.checks import air_at
from wickwright.burn.predicting import Prediction, predict
from wickwright.room.nearby import Thing, needed_above, needed_beside
from wickwright.terms.finding import Severity


@cache
def lamp(elevation: float = 0.0) -> Prediction:
    return predict(put_together("DU-401"), air_at(elevation))


def test_the_column_is_that_of_the_flame() -> None:
    """If this failed, the heat above would be that of another lamp."""
    column, flames = column_over(lamp()), lamp().flames
    assert (column.heat, column.exit, column.diameter) == (
        flames.heat,
        flames.exit_temperature,
        0.040,
    )
    assert column.rising == pytest.approx(0.7 * column.heat)


def test_wood_is_kept_as_far_as_the_greatest_law_asks() -> None:
    """If this failed, a shelf would char under the milder of three laws."""
    it, column = above_and_beside(lamp()), column_over(lamp())
    assert it.keep_above.value == needed_above(column, WOOD)
    assert it.keep_beside.value == needed_beside(column.heat, WOOD, column.air, column.pressure)
    assert 0.0 < it.keep_above.spread < 0.2 * it.keep_above.value
    assert it.keep_above.drivers[0].name == lamp()["heat"].drivers[0].name


def test_gravest_comes_first_and_ratings_of_parts_count() -> None:
    """If this failed, a shade made for bulbs would go over a flame unsaid."""
    book = demo_book()
    it = above_and_beside(
        lamp(),
        (Thing("ceiling", "wood", 0.9), Thing("shelf", "wood", 0.35)),
        (Thing("curtain", "cloth", 0.12),),
        (book.parts["SH-1989"], book.parts["BE-1100"], book.parts["BU-3210"]),
    )
    assert [(one.rule, one.severity) for one in it.findings] == [
        ("above-near", Severity.DANGER),
        ("beside-near", Severity.DANGER),
        ("rated", Severity.FAULT),
        ("above-small-fire", Severity.NOTE),
        ("above-clear", Severity.GOOD),
        ("rated", Severity.GOOD),
    ]
    assert in_words(it.findings[2]) == (
        "The Opal dome 198 for bulbs (SH-1989) is rated for at most 100 W; the lamp gives off "
        "784 W. Above the rating, take one rated for 784 W or more."
    )


def test_higher_up_the_starved_lamp_asks_for_less_room() -> None:
    """If this failed, less heat would reach further."""
    low, high = above_and_beside(lamp()), above_and_beside(lamp(3000.0))
    assert high.column.heat < low.column.heat
    assert high.keep_beside.value < low.keep_beside.value
