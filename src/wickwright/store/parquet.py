"""Parquet files of orders as a table of text."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from wickwright.store.cell_text import Value, cell_text
from wickwright.store.file_faults import file_fault, no_file_fault, unreadable
from wickwright.store.raw_rows import Rows, collector_paused

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    import pyarrow as pa
    import pyarrow.parquet as pq

    from wickwright.catalogue.faults import Fault, RawTable

__all__ = ["MOST_CELLS", "read_parquet"]

MOST_CELLS = 200_000_000
"""Cells of a file; more would not fit in memory."""

_BATCH = 65_536


def _unsuitable(schema: pa.Schema) -> Iterator[tuple[str, str]]:
    """Yield name and type of the columns that are no cells of a table."""
    import pyarrow as pa  # noqa: PLC0415

    for field in schema:
        kind = field.type.value_type if pa.types.is_dictionary(field.type) else field.type
        if pa.types.is_nested(kind) or pa.types.is_binary(kind) or pa.types.is_large_binary(kind):
            yield field.name, str(field.type)


def _column(values: list[Value]) -> list[str]:
    return [one if type(one) is str else cell_text(one) for one in values]


def _read(file: pq.ParquetFile, rows: Rows) -> None:
    start = 2
    for batch in file.iter_batches(batch_size=_BATCH):
        columns = [_column(cast("list[Value]", column.to_pylist())) for column in batch.columns]
        rows.extend(map(list, zip(*columns, strict=True)), start)
        start += batch.num_rows


def _refused(path: Path, file: pq.ParquetFile) -> list[Fault]:
    if file.metadata.num_rows * file.metadata.num_columns > MOST_CELLS:
        what = f"the file has {file.metadata.num_rows:,} rows; that is more than is read at once"
        return [file_fault(path, what, "split it, or take out columns that are not needed")]
    return [
        file_fault(path, f"the column '{name}' holds {kind}", "write it as text, or leave it out")
        for name, kind in _unsuitable(file.schema_arrow)
    ]


def read_parquet(
    path: Path, progress: Callable[[int], None] | None = None
) -> RawTable | tuple[Fault, ...]:
    """Read a Parquet file.

    Parameters
    ----------
    path : Path
        The file.
    progress : callable or None
        Told how many rows were read so far.

    Returns
    -------
    RawTable or tuple of Fault
        The table, named by the file without its ending, its rows numbered as if the header
        stood on row 1, and which of them cannot be read; or what is wrong with the file.
    """
    if fault := no_file_fault(path):
        return (fault,)
    import pyarrow as pa  # noqa: PLC0415
    import pyarrow.parquet as pq  # noqa: PLC0415

    try:
        with collector_paused(), pq.ParquetFile(path) as file:
            if faults := _refused(path, file):
                return tuple(faults)
            rows = Rows(path.stem, file.schema_arrow.names, progress)
            _read(file, rows)
            return rows.table(path.stem, sparing=True)
    except (pa.ArrowException, ValueError) as error:
        what = f"the file is damaged or no Parquet: {str(error).splitlines()[0]}"
        return (file_fault(path, what, "write it again, or export the orders as CSV"),)
    except OSError as error:
        return (unreadable(path, error),)
