"""What a backup of the desk's store holds, and how it proves itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain

__all__ = ["Inventory", "TableSum", "plain_inventory"]


@dataclass(frozen=True, slots=True)
class TableSum:
    """A table of a backup.

    Attributes
    ----------
    name : str
        Of the table.
    rows : int
        How many [-].
    sha256 : str
        Of all rows, in hexadecimal.
    """

    name: str
    rows: int
    sha256: str


@dataclass(frozen=True, slots=True)
class Inventory:
    """What was backed up or restored.

    Attributes
    ----------
    store : str
        What the store is called, without a password.
    made : str
        When the backup was made, in UTC.
    tables : tuple of TableSum
        What is in it, as it was counted in the store itself.
    file_sha256 : str
        Of the backup file, in hexadecimal.
    erased_again : tuple of int
        Calls whose callers had been erased since the backup was made, and were erased again.
    """

    store: str
    made: str
    tables: tuple[TableSum, ...]
    file_sha256: str
    erased_again: tuple[int, ...] = ()

    @property
    def rows(self) -> int:
        """How many rows there are in all [-]."""
        return sum(table.rows for table in self.tables)


def plain_inventory(inventory: Inventory) -> dict[str, Plain]:
    """Return what was backed up or restored as plain data.

    Parameters
    ----------
    inventory : Inventory
        Of a backup.

    Returns
    -------
    dict
        ``store``, ``made``, ``tables`` (``table``, ``rows``, ``sha256``), ``rows``,
        ``file_sha256``, ``erased_again``.
    """
    return {
        "store": inventory.store,
        "made": inventory.made,
        "tables": [
            {"table": one.name, "rows": one.rows, "sha256": one.sha256} for one in inventory.tables
        ],
        "rows": inventory.rows,
        "file_sha256": inventory.file_sha256,
        "erased_again": list(inventory.erased_again),
    }
