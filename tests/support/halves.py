"""Halves of joints, made short."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import Port, Side
from wickwright.fit.joints.verdict import Half
from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["carrier", "exact", "stander"]


def exact(millimetres: float) -> str:
    """Return a size without tolerance, so that a border can be hit."""
    return f"{millimetres:.3f} ± 0 mm"


def _half(
    side: Side,
    joint: str,
    *,
    sizes: Mapping[str, str],
    words: Mapping[str, str],
    numbers: Mapping[str, float],
    label: str,
    material: str,
) -> Half:
    lengths = {name: parse_dimension(text) for name, text in sizes.items()}
    port = Port("p", side, joint, label=label, sizes=lengths, words=words, numbers=numbers)
    return Half(port, material)


def carrier(
    joint: str,
    sizes: Mapping[str, str] | None = None,
    *,
    words: Mapping[str, str] | None = None,
    numbers: Mapping[str, float] | None = None,
    label: str = "",
    material: str = "brass",
) -> Half:
    """Make a carrying half."""
    return _half(
        Side.CARRIES,
        joint,
        sizes=sizes or {},
        words=words or {},
        numbers=numbers or {},
        label=label,
        material=material,
    )


def stander(
    joint: str,
    sizes: Mapping[str, str] | None = None,
    *,
    words: Mapping[str, str] | None = None,
    numbers: Mapping[str, float] | None = None,
    label: str = "",
    material: str = "brass",
) -> Half:
    """Make a standing half."""
    return _half(
        Side.STANDS,
        joint,
        sizes=sizes or {},
        words=words or {},
        numbers=numbers or {},
        label=label,
        material=material,
    )
