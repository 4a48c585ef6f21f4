"""Many costs in one integer, so that adding and comparing them is one operation.

Each cost has a field of fixed width with one guard bit above it. Labels add as plain
integers. ``a`` is nowhere worse than ``b`` exactly when no field of ``b - a`` is negative,
and that is read off the guard bits of ``b + guards - a`` at once. Fields may be negative
in between (a lever arm below the pivot) as long as differences stay within the width.

The first cost stands highest, so a label that is nowhere worse is never the greater
integer: after sorting, only earlier labels can beat later ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

__all__ = ["Packing", "nondominated", "unbeaten"]

Witness = TypeVar("Witness")

_BLOCK = 64
"""Rows compared between two payments."""


@dataclass(frozen=True, slots=True)
class Packing:
    """How costs share an integer.

    Attributes
    ----------
    shifts : tuple of int
        Bit position of each field, first cost highest.
    widths : tuple of int
        Bits of each field without its guard bit.
    guards : int
        All guard bits set.
    """

    shifts: tuple[int, ...]
    widths: tuple[int, ...]
    guards: int

    @classmethod
    def of(cls, widths: Sequence[int]) -> Packing:
        """Lay out fields of the given widths.

        Parameters
        ----------
        widths : sequence of int
            Bits each cost needs, first cost first.

        Returns
        -------
        Packing
            Fields from high to low, a guard bit on each.
        """
        shifts: list[int] = []
        at = 0
        for width in reversed(widths):
            shifts.append(at)
            at += width + 1
        shifts.reverse()
        guards = sum(1 << (s + w) for s, w in zip(shifts, widths, strict=True))
        return cls(tuple(shifts), tuple(widths), guards)

    def pack(self, costs: Sequence[int]) -> int:
        """Return the label of ``costs``; raises OverflowError when one is too wide."""
        label = 0
        for cost, shift, width in zip(costs, self.shifts, self.widths, strict=True):
            if abs(cost) >> width:
                msg = f"a cost of {cost} needs more than {width} bits: widen its field"
                raise OverflowError(msg)
            label += cost << shift
        return label

    def unpack(self, label: int) -> tuple[int, ...]:
        """Return the costs of a label, negative ones included."""
        costs: list[int] = []
        for shift, width in reversed(list(zip(self.shifts, self.widths, strict=True))):
            field = (label >> shift) & ((1 << (width + 1)) - 1)
            if field >> width:
                field -= 1 << (width + 1)
            costs.append(field)
            label -= field << shift
        return tuple(reversed(costs))

    def no_worse(self, one: int, other: int) -> bool:
        """Tell whether ``one`` is at most ``other`` in every cost."""
        return (other + self.guards - one) & self.guards == self.guards


def nondominated(labels: Iterable[int], guards: int) -> list[int]:
    """Keep the labels that no other beats, one of each.

    Parameters
    ----------
    labels : iterable of int
        Packed costs, all minimised.
    guards : int
        :attr:`Packing.guards`.

    Returns
    -------
    list of int
        Ascending.
    """
    kept: list[int] = []
    for label in sorted(labels):
        reach = label + guards
        for other in kept:
            if (reach - other) & guards == guards:
                break
        else:
            kept.append(label)
    return kept


def unbeaten(
    rows: Iterable[tuple[int, Witness]],
    guards: int,
    spend: Callable[[int], None] | None = None,
) -> list[tuple[int, Witness]]:
    """Keep the rows whose label no other beats, the first of equals.

    Parameters
    ----------
    rows : iterable of (int, Witness)
        Packed costs and what they stand for.
    guards : int
        :attr:`Packing.guards`.
    spend : callable, optional
        Told how many comparisons are to come; stops them by raising.

    Returns
    -------
    list of (int, Witness)
        Ascending by label.
    """
    kept: list[tuple[int, Witness]] = []
    ordered = sorted(rows, key=_label)
    for start in range(0, len(ordered), _BLOCK):
        block = ordered[start : start + _BLOCK]
        if spend is not None:
            spend(len(block) * (len(kept) + 1))
        for row in block:
            reach = row[0] + guards
            for other in kept:
                if (reach - other[0]) & guards == guards:
                    break
            else:
                kept.append(row)
    return kept


def _label(row: tuple[int, object]) -> int:
    return row[0]
