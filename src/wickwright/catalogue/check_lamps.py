"""Lamps that cannot have existed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.check_parts import check_years
from wickwright.catalogue.links import places
from wickwright.catalogue.spelling import quoted

if TYPE_CHECKING:
    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["check_lamps"]


def _check_kinds(lamps: Sheet, at: int, sold: list[tuple[str, str]]) -> None:
    """Note a lamp that begins without a base or has a kind twice; pairs of part and kind."""
    part, kind = sold[0]
    if part == lamps.lists["as_sold"][at][0] and kind != "base":
        what = f"the first part as sold, {quoted(part)}, is a {kind}, not a base"
        lamps.fault(at, "as_sold", what, "write the base first")
    seen: dict[str, str] = {}
    for part, kind in sold:
        other = seen.setdefault(kind, part)
        if other != part:
            what = (
                f"as sold it has two parts of the kind {kind}: {quoted(other)} and {quoted(part)}"
            )
            lamps.fault(at, "as_sold", what, "a lamp carries one part of each kind: keep one")


def _check_times(lamps: Sheet, at: int, sold: list[tuple[str, int | None]]) -> None:
    """Note parts that came after the lamp was gone; pairs of part and first year."""
    last = lamps.wholes["to"][at]
    for part, first in sold if last is not None else ():
        if first is not None and last is not None and first > last:
            lamps.fault(
                at,
                "as_sold",
                f"the lamp was last made in {last}, but its part {quoted(part)} "
                f"was first made in {first}",
                "correct one of the two years, or name the part it was sold with",
            )


def check_lamps(sheets: Sheets) -> None:
    """Note what cannot be about the lamps.

    Parameters
    ----------
    sheets : dict of str to Sheet
        The book; faults are added to the sheet ``lamps``.
    """
    lamps, parts = sheets["lamps"], sheets["parts"]
    check_years(lamps)
    where = places(parts)
    kinds, firsts = parts.texts["kind"], parts.wholes["from"]
    for at, listed in enumerate(lamps.lists["as_sold"]):
        known = [(part, where[part]) for part in listed if part in where]
        kinded = [(part, kinds[place]) for part, place in known if kinds[place]]
        if kinded:
            _check_kinds(lamps, at, kinded)
        _check_times(lamps, at, [(part, firsts[place]) for part, place in known])
