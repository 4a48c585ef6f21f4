"""Towns found by name, and which of them is meant."""

import pytest
from tests.support.towns import SMALL, small_towns

from wickwright.answers.places.place_names import (
    ElevationTyped,
    NoSuchTownError,
    TownsFound,
    elevation_typed,
    towns_named,
)
from wickwright.answers.places.place_words import (
    assumed_words,
    choice_lines,
    taken_words,
    town_words,
)
from wickwright.answers.places.town_table import Known, Town, folded, town_table
from wickwright.answers.plain.places import plain_town
from wickwright.terms.units import Units, UnitsError

METRIC, US = Units(), Units("us")
TABLE = small_towns()


def _found(text: str) -> list[tuple[str, str, int]]:
    return [(town.name, town.country, town.population) for town in towns_named(TABLE, text).towns]


def _no_table() -> None:
    msg = "the table was read for a height"
    raise AssertionError(msg)


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Sant Julià de Lòria", "sant julia de loria"),
        ("ZÜRICH", "zurich"),
        ("St. Moritz", "st moritz"),
        ("Łódź", "lodz"),
        ("Kāne\u2018ohe", "kaneohe"),
        ("Coeur d'Alene", "coeur dalene"),
        ("Straße", "strasse"),
        ("  -- ", ""),
        ("İzmir", "izmir"),
    ],
)
def test_folding(text: str, plain: str) -> None:
    """If this failed, a name typed without its accents would not be found."""
    assert folded(text) == plain


def test_a_town_is_made_of_its_row() -> None:
    """If this failed, a town would stand in another country or at another height."""
    assert TABLE.town(1) == Town(
        "Høg Vik", "NO", "Kingdom of Norway", "Høgland", 50000, 1200.0, Known.SURVEYED
    )


def test_whole_names_come_before_words_and_beginnings_and_large_towns_before_small() -> None:
    """If this failed, the town that is likeliest meant would stand far down the list."""
    brae = [("Brae", "NO", 90000), ("Brae", "SE", 8000), ("Brae Sør", "NO", 7000)]
    assert _found("brae") == brae
    assert _found("tarn") == [("Tarn", "SE", 6000), ("Old Tarn", "NO", 6500)]
    assert _found("bra") == [brae[0], brae[1], brae[2]]
    assert _found("br") == []
    assert _found("arn") == []


@pytest.mark.parametrize(
    "text",
    [
        "brae, sweden",
        "Brae, SE",
        "brae sweden",
        "BRAE,north",
        "brae north sweden",
        "brae, north, se",
        "brae, , SE",
    ],
)
def test_a_country_or_region_narrows(text: str) -> None:
    """If this failed, an adviser could not say which of several towns is meant."""
    found = towns_named(TABLE, text)
    assert (found.in_all, found.meant) == (1, TABLE.town(2))


def test_a_name_may_hold_a_comma() -> None:
    """If this failed, towns whose names the table spells with a comma could not be reached."""
    assert _found("Skog, Lund") == _found("skog lund, SE") == [("Skog, Lund", "SE", 5100)]
    assert _found("Skog, Lund, Norway") == []


def test_letters_of_a_region_s_code_narrow_and_figures_do_not() -> None:
    """If this failed, a state's two letters would not be understood, or a number would."""
    assert _found("nes, up") == [("Nes", "SE", 5500)]
    assert _found("brae, 01") == []


def test_a_region_is_named_by_the_words_it_begins_with() -> None:
    """If this failed, 'Upper' would not do for Upper Dale, or 'Up' would do for it by chance."""
    assert _found("18 mars, upper") == [("18 Mars", "SE", 5200)]
    assert _found("18 mars, dale") == []


def test_a_name_in_another_country_is_not_offered() -> None:
    """If this failed, a town of that name at the other end of the world would answer."""
    assert _found("tarn, norway") == [("Old Tarn", "NO", 6500)]
    assert towns_named(TABLE, "tarn, norway").meant is None
    assert _found("hog vik, sweden") == []


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("brae", "two towns bear the whole name"),
        ("hog", "the name is not whole"),
        ("nes", "its height is disputed"),
        ("", "nothing was typed"),
        ("kirk", "there is none"),
    ],
)
def test_no_town_is_meant(text: str, why: str) -> None:
    """If this failed, a town would be chosen without a word although a choice was open."""
    assert towns_named(TABLE, text).meant is None, why


def test_another_town_of_that_name_matters_where_it_lies_elsewhere_and_is_not_dwarfed() -> None:
    """If this failed, a hamlet would answer for a town that the table has under a longer name."""
    line = "Tarn\tSE\t07\t6000\t10\tt\n"
    near = town_table(**SMALL).rows[4].replace("\t30\t", "\t110\t")
    far = near.replace("\t110\t", "\t111\t")
    large = line.replace("6000", "65001")
    for other, tarn, meant in ((near, line, True), (far, line, False), (far, large, True)):
        table = town_table(tarn + other + "\n", SMALL["regions"], SMALL["countries"])
        assert (towns_named(table, "tarn").meant is not None) is meant, (other, tarn)


def test_no_more_towns_are_given_than_asked_for_and_all_are_counted() -> None:
    """If this failed, a common name would flood the page, or hide that there are more."""
    found = towns_named(TABLE, "brae", most=1)
    assert (len(found.towns), found.in_all) == (1, 3)
    assert towns_named(TABLE, "brae", most=0).towns == ()


def test_a_row_that_is_not_whole_is_refused() -> None:
    """If this failed, a damaged table would answer with whatever its cells had become."""
    with pytest.raises(ValueError, match=r"^each town has 6 cells$"):
        town_table("Brae\tNO\n", SMALL["regions"], SMALL["countries"])


# -- heights and names ---------------------------------------------------------------------------


def _typed(text: str, bare: str | None = None) -> ElevationTyped | TownsFound:
    assert bare in {None, "m", "ft"}
    return elevation_typed(text, small_towns, bare)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("text", "metres"), [("1900 m", 1900.0), ("6,200 ft", 1889.76), ("0", 0.0), ("-100m", -100.0)]
)
def test_a_height_is_read_without_the_table(text: str, metres: float) -> None:
    """If this failed, every height would wait for a table that it does not need."""
    typed = elevation_typed(text, _no_table)  # type: ignore[arg-type]
    assert isinstance(typed, ElevationTyped)
    assert typed.elevation == pytest.approx(metres)
    assert assumed_words(typed, METRIC) == ""


def test_a_bare_number_is_taken_in_the_unit_that_was_set_and_that_is_said() -> None:
    """If this failed, feet would be taken for metres without anyone being told."""
    metres, feet = _typed("1900", "m"), _typed("6,200", "ft")
    assert metres == ElevationTyped(1900.0, "m")
    assert isinstance(feet, ElevationTyped)
    assert assumed_words(feet, METRIC) == "No unit was given: taken in feet, so 1,890 m."
    assert assumed_words(ElevationTyped(1900.0, "m"), US) == (
        "No unit was given: taken in metres, so 6,234 ft."
    )


@pytest.mark.parametrize(
    ("text", "bare", "says"),
    [
        (
            "1900",
            None,
            (
                "'1900' has no unit: 1,900 m, or 1,900 ft, which is 579 m: write the unit behind "
                "it, such as 5200ft or 1700m"
            ),
        ),
        (
            "99999",
            "m",
            (
                "'99999' has no unit: 99,999 m, or 99,999 ft, which is 30,480 m: write the unit "
                "behind it, such as 5200ft or 1700m"
            ),
        ),
        (
            "9000 m",
            "m",
            (
                "9000 m is 9000 m; the desk answers for -430 m (the lowest shore) to 6000 m (the "
                "highest dwellings): check the figure and its unit"
            ),
        ),
        (
            "1900 furlongs",
            "m",
            (
                "'1900 furlongs' is in a unit that elevations are not read in, 'furlongs': write "
                "m, km or ft, such as 1700m or 5200ft"
            ),
        ),
        ("", None, "'' is not an elevation: write a number with its unit, such as 5200ft or 1700m"),
    ],
)
def test_a_height_that_cannot_be_used_is_refused_as_one(
    text: str, bare: str | None, says: str
) -> None:
    """If this failed, a slip in a figure would be answered with talk about towns."""
    with pytest.raises(UnitsError) as caught:
        _typed(text, bare)
    assert str(caught.value) == says


def test_a_town_may_begin_with_a_figure() -> None:
    """If this failed, towns named for a date could not be named."""
    found = _typed("18 mars")
    assert isinstance(found, TownsFound)
    assert found.meant == TABLE.town(7)


NOT_THERE = (
    " is no elevation, and no such town is in the table (it has those of 5,000 people and more, "
    "and of 1,000 and more above 1,000 m): "
)
WRITE = (
    "write the elevation with its unit, such as 5200ft or 1700m, or a larger town near by that "
    "lies as high"
)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "Hog Vikk",
            f"'Hog Vikk'{NOT_THERE}did you mean Høg Vik, Høgland, Kingdom of Norway? {WRITE}",
        ),
        ("kirk", f"'kirk'{NOT_THERE}{WRITE}"),
        (",,", f"',,'{NOT_THERE}{WRITE}"),
        ("\x1b[31mred", f"'\ufffd[31mred'{NOT_THERE}{WRITE}"),
        ("y" * 5000, f"'{'y' * 40}…'{NOT_THERE}{WRITE}"),
        ("a " * 5000, f"'{'a ' * 20}…'{NOT_THERE}{WRITE}"),
    ],
)
def test_what_is_neither_is_refused_with_what_mends_it(text: str, says: str) -> None:
    """If this failed, a slip of the finger or a hostile text would get a riddle for an answer."""
    with pytest.raises(NoSuchTownError) as caught:
        _typed(text)
    assert str(caught.value) == says


# -- words ---------------------------------------------------------------------------------------


def test_a_town_is_said_with_where_it_is_how_large_how_high_and_how_that_is_known() -> None:
    """If this failed, an adviser could not tell one town of a name from another."""
    assert town_words(TABLE.town(1), METRIC) == (
        "Høg Vik, Høgland, Kingdom of Norway: 50,000 people, 1,200 m (surveyed)"
    )
    assert (
        town_words(TABLE.town(5), US) == "Tarn, North, Sweden: 6,000 people, 33 ft (terrain model)"
    )


def test_the_town_that_was_taken_is_said_with_what_it_is_worth() -> None:
    """If this failed, a town would be taken silently, or without the attribution it needs."""
    rest = (
        "a house uphill or down in the valley has its own. Is it another place? Write its country "
        "or region behind a comma, or its elevation. Towns and elevations: GeoNames "
        "(geonames.org), CC BY 4.0."
    )
    assert taken_words(TABLE.town(1), METRIC) == (
        "Place taken: Høg Vik, Høgland, Kingdom of Norway: 50,000 people, 1,200 m (surveyed); "
        + rest
    )
    assert taken_words(TABLE.town(5), METRIC) == (
        "Place taken: Tarn, North, Sweden: 6,000 people, 10 m (terrain model); nine in ten such "
        "heights are within 16 m of the surveyed one; " + rest
    )


def test_a_choice_names_every_town_and_how_to_narrow() -> None:
    """If this failed, an adviser would be refused and not told how to go on."""
    assert choice_lines(towns_named(TABLE, "brae", most=2), METRIC) == [
        (
            "'brae' may mean 3 towns: write the whole name with its country or region, such as "
            "'Brae, West Firth, NO', or the elevation with its unit"
        ),
        "Brae, West Firth, Kingdom of Norway: 90,000 people, 40 m (terrain model)",
        "Brae, North, Sweden: 8,000 people, 900 m (surveyed)",
        "and 1 more",
    ]
    assert choice_lines(towns_named(TABLE, "hog"), METRIC)[0] == (
        "'hog' may mean a town: write the whole name with its country or region, such as 'Høg Vik, "
        "Høgland, NO', or the elevation with its unit"
    )
    assert choice_lines(towns_named(TABLE, "nes"), METRIC) == [
        "'nes' may mean a town: how high it lies is not sure, so write the elevation with its unit",
        (
            "Nes, Upper Dale, Sweden: 5,500 people, 15 m (terrain model, far from a surveyed "
            "figure: ask)"
        ),
    ]


def test_what_a_choice_tells_to_write_is_understood() -> None:
    """If this failed, an adviser would do as told and be refused again."""
    told = choice_lines(towns_named(TABLE, "brae"), METRIC)[0].split("such as '")[1].split("'")[0]
    assert towns_named(TABLE, told).towns[0] == towns_named(TABLE, "brae").towns[0]


def test_a_town_as_plain_data() -> None:
    """If this failed, a machine would not learn how far the height may be off."""
    assert plain_town(TABLE.town(5)) == {
        "name": "Tarn",
        "country": "SE",
        "country_name": "Sweden",
        "region": "North",
        "population": 6000,
        "elevation_m": 10.0,
        "known": "terrain",
        "within_m": 16.0,
        "attribution": "Towns and elevations: GeoNames (geonames.org), CC BY 4.0.",
    }
    assert plain_town(TABLE.town(1))["within_m"] is None
