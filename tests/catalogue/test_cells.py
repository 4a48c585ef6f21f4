from __future__ import annotations

import math
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

import pytest

from wickwright.catalogue.cells import (
    CellError,
    parse_count,
    parse_day,
    parse_key,
    parse_length,
    parse_level,
    parse_money,
    parse_number,
    parse_pitch,
    parse_signed,
    parse_tokens,
    parse_year,
    word_of,
    words_of,
)
from wickwright.terms.dimension import DimensionError

if TYPE_CHECKING:
    from collections.abc import Callable

_NUMBERS = "write digits alone, such as 450 or 12.5; the unit stands in the column's note"
_AMOUNTS = "write digits alone, such as 12.50; the currency stands in the table about"
_YEARS = "write four digits, such as 1928; leave it blank if not known"
_DAYS = "write year, month and day, such as 2026-07-01"
_LEVELS = "write a number and a unit (mm, cm, m, in, ft), such as '31 mm', '0 mm' or '-12 mm'"
_PITCHES = "write the threads per inch or the millimetres a turn, such as '14 tpi' or '1.814 mm'"
_UNKNOWN = "write 0 or more; leave it blank if not known"


@pytest.mark.parametrize(
    ("parse", "text", "value"),
    [
        (parse_year, "1928", 1928),
        (parse_count, "0", 0),
        (parse_day, "2028-02-29", date(2028, 2, 29)),
        (parse_count, "007", 7),
        (parse_signed, "-5", -5),
        (parse_signed, "+12", 12),
        (parse_number, "12.50", Decimal("12.50")),
        (parse_number, ".5", Decimal("0.5")),
        (parse_money, "12.50", 1250),
        (parse_money, "12", 1200),
        (parse_money, "0.1", 10),
        (parse_money, "999999999999.99", 99999999999999),
        (parse_key, "B-12/a", "B-12/a"),
        (parse_tokens, " B1  F1\tU1 ", ("B1", "F1", "U1")),
        (word_of("hands", ("right", "left")), "left", "left"),
        (words_of("hands", ("right", "left")), "left right", ("left", "right")),
    ],
)
def test_a_sound_cell_is_read(parse: Callable[[str], object], text: str, value: object) -> None:
    """A cell written as its column wants would be refused or misread."""
    assert parse(text) == value


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("0 mm", 0),
        ("0.05 mm", 0.05),
        ("-12 mm", -12),
        ("\N{MINUS SIGN}12 mm", -12),
        ("+ 31mm", 31),
        ("2 5/8 in", 66.675),
        ('-1/2"', -12.7),
        ("31 ± 1 mm", 31),
        ("-31..32 mm", -31.5),
    ],
)
def test_a_height_may_be_zero_or_below(text: str, millimetres: float) -> None:
    """A joint plane below the part's own foot could not be written."""
    assert parse_level(text) == pytest.approx(millimetres / 1000, rel=1e-12)


def test_no_height_is_minus_zero() -> None:
    """Zero below the foot would print as '-0 mm' and differ from zero above it."""
    assert math.copysign(1, parse_level("-0 mm")) == 1


@pytest.mark.parametrize(
    ("text", "nominal", "half"),
    [
        ("14 tpi", 25.4 / 14, 0),
        ("11 1/2 TPI", 25.4 / 11.5, 0),
        ("1.814 mm", 1.814, 0),
        ("1.814 ± 0.01 mm", 1.814, 0.01),
        ("1/20 in", 1.27, 0),
    ],
)
def test_a_pitch_is_an_advance_in_one_turn(text: str, nominal: float, half: float) -> None:
    """Threads per inch and millimetres could not be compared, or got a length's tolerance."""
    pitch = parse_pitch(text)
    assert pitch.nominal * 1000 == pytest.approx(nominal, rel=1e-12)
    assert pitch.half * 1000 == pytest.approx(half, abs=1e-9)
    assert pitch.text == text


@pytest.mark.parametrize(
    ("parse", "text", "what", "cure"),
    [
        (parse_year, "28", "'28' is not a year between 1700 and 2199", _YEARS),
        (parse_year, "20024", "'20024' is not a year between 1700 and 2199", _YEARS),
        (parse_day, "1.7.2026", "'1.7.2026' is not a day", _DAYS),
        (parse_day, "20260701", "'20260701' is not a day", _DAYS),
        (parse_day, "2026-02-29", "'2026-02-29' is a day no calendar has", _DAYS),
        (parse_count, "2.5", "'2.5' is not a whole number", "write digits alone, such as 12"),
        (parse_count, "-1", "'-1' is negative", _UNKNOWN),
        (parse_count, "²", "'²' is not a whole number", "write digits alone, such as 12"),
        (parse_signed, "5 %", "'5 %' is not a whole number", "write digits, such as 12 or -5"),
        (parse_number, "450 g", "'450 g' is not a plain number", _NUMBERS),
        (parse_number, "nan", "'nan' is not a plain number", _NUMBERS),
        (parse_number, "1e3", "'1e3' is not a plain number", _NUMBERS),
        (parse_number, "9" * 50, f"'{'9' * 40}…' is not a plain number", _NUMBERS),
        (parse_number, "12,5", "'12,5' is written with a decimal comma", "write 12.5"),
        (
            parse_number,
            "1,250",
            "'1,250' has a comma in it",
            "write 1250, or 1.250 if the comma is a decimal one",
        ),
        (
            parse_money,
            "1,250.00",
            "'1,250.00' has a comma in it",
            "write 1250.00, without commas",
        ),
        (parse_money, "12,50", "'12,50' is written with a decimal comma", "write 12.50"),
        (parse_money, "-12.50", "'-12.50' is negative", _UNKNOWN),
        (parse_money, "$12", "'$12' is not an amount", _AMOUNTS),
        (parse_money, "12.505", "'12.505' is finer than the smallest coin", "write two decimals"),
        (parse_level, "31", "'31' is not a height", _LEVELS),
        (parse_level, "--5 mm", "'--5 mm' is not a height", _LEVELS),
        (parse_level, "-", "'-' is not a height", _LEVELS),
        (parse_level, "1/0 mm", "'1/0' divides by zero", "write the fraction again"),
        (
            parse_length,
            "5" * 70,
            f"'{'5' * 40}…' is too long for a dimension",
            "write the dimension alone; remarks go in the note",
        ),
        (parse_pitch, "14", "'14' is not a pitch", _PITCHES),
        (parse_pitch, "0 tpi", "'0 tpi' is not a pitch", _PITCHES),
        (parse_pitch, "14/0 tpi", "'14/0' divides by zero", "write the fraction again"),
        (parse_key, "9 a", "'9 a' has a blank in it", "write one word: '9-a'"),
        (parse_key, "9,a", "'9,a' has a comma in it", "write it without commas"),
        (
            parse_key,
            "#9",
            "'#9' begins with '#', which marks a note",
            "take the '#' away, or put a blank behind it to make the row a note",
        ),
        (
            parse_tokens,
            "a,b; c",
            "'a,b; c' has commas between its words",
            "put blanks there: a b c",
        ),
        (parse_tokens, "a b a", "'a' stands twice in the cell", "write it once"),
        (
            word_of("hands", ("right", "left")),
            "LEFT",
            "'LEFT' is not one of the hands",
            "did you mean 'left'? choose from: right, left",
        ),
        (
            words_of("hands", ("right", "left")),
            "left up",
            "'up' is not one of the hands",
            "choose from: right, left",
        ),
    ],
)
def test_an_unsound_cell_says_why_and_what_mends_it(
    parse: Callable[[str], object], text: str, what: str, cure: str
) -> None:
    """Whoever keeps the book would not learn what to write instead."""
    with pytest.raises(CellError) as caught:
        parse(text)
    assert (caught.value.what, caught.value.cure) == (what, cure)
    assert str(caught.value) == f"{what}: {cure}"


@pytest.mark.parametrize("parse", [parse_length, parse_level, parse_pitch])
def test_a_decimal_comma_in_a_dimension_is_told(parse: Callable[[str], object]) -> None:
    """The commonest slip of a keyboard would be called no dimension at all."""
    with pytest.raises(DimensionError) as caught:
        parse("31,5 mm")
    assert caught.value.what == "'31,5 mm' is written with a decimal comma"
    assert caught.value.cure == "write a decimal point: '31.5 mm'"
