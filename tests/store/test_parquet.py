from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import TYPE_CHECKING

import pyarrow as pa
import pyarrow.parquet as pq
from tests.support.files import lines

from wickwright.catalogue.faults import RawTable
from wickwright.store import parquet
from wickwright.store.parquet import read_parquet

if TYPE_CHECKING:
    from pathlib import Path

    import pytest


def test_values_of_every_plain_type_become_text(tmp_path: Path) -> None:
    """Orders from a data store would come with 2.0 pieces or a day in seconds."""
    path = tmp_path / "orders.parquet"
    columns = {
        "order": ["A1", None, "A3"],
        "count": [2, 0, 1],
        "price": pa.array([Decimal("12.50"), None, Decimal("3.00")]),
        "weight": [2.0, 0.5, None],
        "day": [dt.date(2024, 5, 2), None, dt.date(2024, 5, 3)],
        "seat": pa.array(["plain", "plain", None]).dictionary_encode(),
    }
    pq.write_table(pa.table(columns), path)
    told: list[int] = []
    assert read_parquet(path, told.append) == RawTable(
        "orders",
        ("order", "count", "price", "weight", "day", "seat"),
        (
            (2, ("A1", "2", "12.50", "2", "2024-05-02", "plain")),
            (3, ("", "0", "", "0.5", "", "plain")),
            (4, ("A3", "1", "3.00", "", "2024-05-03", "")),
        ),
    )
    assert told == [3]


def test_columns_that_are_no_cells_are_told_all_at_once(tmp_path: Path) -> None:
    """A list in a cell would be read as its program's notation."""
    path = tmp_path / "orders.parquet"
    pq.write_table(pa.table({"a": [[1, 2]], "b": [b"x"], "c": ["fine"]}), path)
    assert lines(read_parquet(path)) == [
        (
            "orders.parquet 0 : the column 'a' holds list<element: int64>; "
            "write it as text, or leave it out"
        ),
        "orders.parquet 0 : the column 'b' holds binary; write it as text, or leave it out",
    ]


def test_columns_of_one_name_are_told(tmp_path: Path) -> None:
    """One of two columns of a name would be passed over."""
    path = tmp_path / "orders.parquet"
    pq.write_table(pa.Table.from_arrays([pa.array([1]), pa.array([2])], ["a", "a"]), path)
    assert lines(read_parquet(path)) == [
        "orders 1 a: the column 'a' is there 2 times: A, B; keep one of them, or rename the others"
    ]


def test_a_damaged_file_is_refused(tmp_path: Path) -> None:
    """A file cut short on its way would crash the program."""
    path = tmp_path / "orders.parquet"
    pq.write_table(pa.table({"a": list(range(1000))}), path)
    whole = path.read_bytes()
    for data in (whole[:-20], whole[:8], b"part,name\n" * 9):
        path.write_bytes(data)
        (found,) = lines(read_parquet(path))
        assert found.startswith("orders.parquet 0 : the file is damaged or no Parquet: Parquet ")
        assert found.endswith("; write it again, or export the orders as CSV")


def test_a_file_of_too_many_cells_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that unpacks to more than the machine holds would stop it."""
    path = tmp_path / "orders.parquet"
    pq.write_table(pa.table({"a": list(range(1000))}), path)
    monkeypatch.setattr(parquet, "MOST_CELLS", 999)
    assert lines(read_parquet(path)) == [
        (
            "orders.parquet 0 : the file has 1,000 rows; that is more than is read at once; "
            "split it, or take out columns that are not needed"
        )
    ]
