from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest

from wickwright.store.cell_text import Value, cell_text, is_moment


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, ""),
        ("  007 ", "  007 "),
        (2.0, "2"),
        (-0.0, "0"),
        (0.1 + 0.2, "0.3"),
        (12.5, "12.5"),
        (1e-7, "0.0000001"),
        (1e20, "100000000000000000000"),
        (float("nan"), "nan"),
        (7, "7"),
        (True, "TRUE"),
        (Decimal("12.50"), "12.50"),
        (Decimal("1E+3"), "1000"),
        (dt.date(2024, 5, 1), "2024-05-01"),
        (dt.datetime(2024, 5, 1), "2024-05-01"),  # noqa: DTZ001 - spreadsheets know no zones
        (dt.datetime(2024, 5, 1, 13, 4), "2024-05-01 13:04:00"),  # noqa: DTZ001
        (dt.time(9, 30), "09:30:00"),
        (dt.timedelta(hours=30), "1 day, 6:00:00"),
    ],
)
def test_a_value_becomes_the_text_a_person_would_type(value: Value, text: str) -> None:
    """A part number 2 would come out of a workbook as 2.0 and be unknown."""
    assert cell_text(value) == text


def test_only_dates_and_times_are_moments() -> None:
    """A number would be refused as a date, or a date be taken for a size."""
    assert is_moment(dt.date(2024, 5, 1))
    assert is_moment(dt.time(9))
    assert is_moment(dt.timedelta(1))
    assert not any(is_moment(value) for value in ("2024-05-01", 2024.0, True, None))
