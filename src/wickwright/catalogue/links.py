"""Keys that stand twice, and links to rows that are not there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.columns import TABLES, Column, Holds
from wickwright.catalogue.spelling import meant, quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["IDENTITIES", "check_keys", "check_links", "filled", "places"]

IDENTITIES: dict[str, tuple[str, ...]] = {
    **{name: (t.columns[0].name,) for name, t in TABLES.items() if t.columns[0].holds is Holds.KEY},
    "ports": ("part", "port"),
    "includes": ("part", "includes"),
    "flames": ("part", "property"),
    "marks": ("part", "look"),
    "swaps": ("kind",),
    "shows": ("cause", "sign"),
    "cures": ("remedy", "cause"),
}
"""The columns that tell two rows of a table apart; rows of ``wishes`` and
``revisions`` have none."""

_GUESSES = 6  # 'did you mean' among ten thousand keys takes time


def places(sheet: Sheet) -> dict[str, int]:
    """Return where each key stands first.

    Parameters
    ----------
    sheet : Sheet
        A table whose first column is its key.

    Returns
    -------
    dict of str to int
        Place in the sheet's lists by key.
    """
    keys = sheet.texts[sheet.table.columns[0].name]
    first: dict[str, int] = {}
    for at, key in enumerate(keys):
        if key:
            first.setdefault(key, at)
    return first


def filled(sheet: Sheet, column: str) -> set[str]:
    """Return what stands in a column, the blanks left out.

    Parameters
    ----------
    sheet : Sheet
        Any table.
    column : str
        One of its columns.

    Returns
    -------
    set of str
        Every text of the column once; empty where nobody has filled it in.
    """
    return set(filter(None, sheet.texts[column]))


def check_keys(sheet: Sheet) -> None:
    """Note the rows that cannot be told apart from an earlier one.

    Parameters
    ----------
    sheet : Sheet
        A table with an entry in :data:`IDENTITIES`.
    """
    names = IDENTITIES[sheet.table.name]
    first: dict[tuple[str, ...], int] = {}
    for at, key in enumerate(zip(*(sheet.texts[name] for name in names), strict=True)):
        if all(key) and first.setdefault(key, at) != at:
            one, two = sheet.rows[first[key]], sheet.rows[at]
            said = ", ".join(f"{n} {quoted(k)}" for n, k in zip(names, key, strict=True))
            sheet.fault(
                at,
                names[-1],
                f"{said} is already on row {one}",
                f"keep one of the rows {one} and {two}, or give one of them another {names[-1]}",
            )


def _linking(sheet: Sheet) -> Iterator[tuple[Column, Iterable[Iterable[str]]]]:
    """Yield each column of links with the keys in each of its cells."""
    for column in sheet.table.columns:
        if column.holds is Holds.LINK:
            yield column, ((text,) if text else () for text in sheet.texts[column.name])
        elif column.holds is Holds.LINKS:
            yield column, sheet.lists[column.name]


def check_links(sheet: Sheet, sheets: Sheets) -> None:
    """Note the links to rows that are not there.

    Parameters
    ----------
    sheet : Sheet
        The table whose links are followed.
    sheets : dict of str to Sheet
        The whole book.
    """
    for column, cells in _linking(sheet):
        target = sheets[column.of]
        if target.known:
            _follow(sheet, column, cells, places(target))


def _follow(
    sheet: Sheet, column: Column, cells: Iterable[Iterable[str]], keys: dict[str, int]
) -> None:
    noun = TABLES[column.of].columns[0].name
    guesses: dict[str, str] = {}
    for at, links in enumerate(cells):
        for link in links:
            if link in keys:
                continue
            if link not in guesses:
                guesses[link] = meant(link, keys) if len(guesses) < _GUESSES else ""
            sheet.fault(
                at,
                column.name,
                f"there is no {noun} {quoted(link)}",
                f"{guesses[link]}write the key of a row of the table {column.of}, or add the row",
            )
