"""What comes with a part: no loops, and no kind twice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.links import places
from wickwright.catalogue.loops import find_loops, say_loop
from wickwright.catalogue.spelling import quoted

if TYPE_CHECKING:
    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["check_includes"]

Brought = dict[str, str]
"""Part by kind: what one part brings with it, itself included."""


def _rows_of(sheet: Sheet) -> dict[str, dict[str, int]]:
    """Return for each part what it includes and on which row."""
    rows: dict[str, dict[str, int]] = {}
    for at, (part, other) in enumerate(
        zip(sheet.texts["part"], sheet.texts["includes"], strict=True)
    ):
        if part and other:
            rows.setdefault(part, {}).setdefault(other, at)
    return rows


def _check_loops(sheet: Sheet, rows: dict[str, dict[str, int]]) -> bool:
    loops = find_loops({part: tuple(others) for part, others in rows.items()})
    for loop in loops:
        sheet.fault(
            rows[loop[-2]][loop[-1]],
            "includes",
            f"the parts include each other in a loop: {say_loop(loop)}",
            "take one of these rows out",
        )
    return bool(loops)


def _bring(
    sheet: Sheet,
    part: str,
    rows: dict[str, dict[str, int]],
    kind_of: dict[str, str],
    known: dict[str, Brought],
) -> Brought:
    """Return what a part brings; note the rows that bring a kind a second time."""
    brought = {kind_of[part]: part} if kind_of.get(part) else {}
    for other, at in rows.get(part, {}).items():
        for kind, one in known.get(other, {}).items():
            if kind not in brought:
                brought[kind] = one
                continue
            sheet.fault(
                at,
                "includes",
                f"{quoted(part)} would bring two parts of the kind {kind}: "
                f"{quoted(brought[kind])} and {quoted(one)}",
                "a lamp carries one part of each kind: take one of them out",
            )
    return brought


def _innermost_first(rows: dict[str, dict[str, int]]) -> list[str]:
    """Return every part after the parts it includes; there is no loop."""
    order: dict[str, None] = {}
    for start in rows:
        stack = [(start, False)]
        while stack:
            part, opened = stack.pop()
            if opened:
                order.setdefault(part)
            elif part not in order:
                stack.append((part, True))
                stack.extend((other, False) for other in rows.get(part, {}))
    return list(order)


def check_includes(sheets: Sheets) -> None:
    """Note loops in what parts include, and kinds brought twice.

    Parameters
    ----------
    sheets : dict of str to Sheet
        The book; faults are added to the sheet ``includes``.
    """
    sheet, parts = sheets["includes"], sheets["parts"]
    rows = _rows_of(sheet)
    if _check_loops(sheet, rows):
        return
    kinds = parts.texts["kind"]
    kind_of = {key: kinds[at] for key, at in places(parts).items()}
    known: dict[str, Brought] = {}
    for part in _innermost_first(rows):
        known[part] = _bring(sheet, part, rows, kind_of, known)
