"""What was backed up or restored, as a page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.cli.layout import paragraph, table

if TYPE_CHECKING:
    from wickwright.answers.sheet.backup_record import Inventory

__all__ = ["inventory_page", "when"]


def inventory_page(inventory: Inventory, did: str, width: int) -> list[str]:
    """Return what was done, table by table.

    Parameters
    ----------
    inventory : Inventory
        What was backed up or restored.
    did : str
        The first sentence.
    width : int
        Of the page.

    Returns
    -------
    list of str
        Lines.
    """
    rows = [(one.name, f"{one.rows:,}", one.sha256[:16]) for one in inventory.tables]
    heads = ("table", "rows", "SHA-256 begins with")
    lines = [*paragraph(did, width), *table([heads, *rows], width, rights=(1,))]
    lines += paragraph(f"{inventory.rows:,} rows in all. SHA-256 of the file:", width)
    lines += [f"  {inventory.file_sha256}"]
    if inventory.erased_again:
        numbers = ", ".join(map(str, inventory.erased_again))
        lines += paragraph(
            f"Erased again, for their callers had asked for it since: call {numbers}.", width
        )
    return lines


def when(made: str) -> str:
    """Return a time in UTC to the minute, such as ``2026-03-05 09:30 UTC``."""
    return f"{made[:16].replace('T', ' ')} UTC"
