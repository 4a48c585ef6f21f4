"""The sizes an invented maker used over a century: one ladder for each joint.

Neighbours on a ladder mostly do not fit each other; here and there two do. Every size was
drawn several times, so that some drawings of one size no longer go together either.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from benchmarks.routes.draw import Size

if TYPE_CHECKING:
    from benchmarks.routes.draw import Draw, Ladder

__all__ = ["ladders"]

_LOWEST = {
    "foot": (88.0, 5.0, 0.5),
    "hook": (11.0, 4.0, 0.4),
    "collar": (33.0, 3.0, 0.1),
    "wick": (24.0, 2.4, 0.25),
    "tube": (13.0, 2.6, 0.5),
    "basket": (62.0, 2.0, 0.3),
    "mantle": (19.0, 1.1, 0.1),
    "fingers": (55.0, 2.0, 0.35),
    "turn": (58.0, 2.4, 0.3),
    "rim": (76.0, 3.6, 0.6),
    "ring": (98.0, 21.0, 0.7),
    "arms": (70.0, 13.0, 0.3),
}
"""Lowest size, usual step, and how far revisions of a drawing differ, up and down [mm]."""

_CAPS = ("E27", "B22d", "E14", "E26")


def _offsets(draw: Draw, spread: float) -> tuple[float, ...]:
    return tuple(round(draw.between(-spread, spread), 2) for _ in range(draw.scale.drawings))


def _ladder(draw: Draw, joint: str) -> Ladder:
    low, step, spread = _LOWEST[joint]
    sizes: list[Size] = []
    for at in range(draw.scale.families[joint]):
        words, numbers = _shared(draw, joint)
        sizes.append(
            Size(f"{joint} {at + 1}", round(low, 1), _offsets(draw, spread), words, numbers)
        )
        low += draw.about(step, 0.4)
    draw.rng.shuffle(sizes)
    return tuple(sizes)


def _shared(draw: Draw, joint: str) -> tuple[dict[str, str], dict[str, float]]:
    """Words and numbers that both sides of a size have in common."""
    if joint == "collar":
        return {"form": draw.rng.choice(("un", "round")), "hand": "right"}, {}
    if joint == "wick":
        return {"form": "round"}, {}
    if joint == "arms":
        return {"form": draw.rng.choice(("3", "4"))}, {}
    if joint in ("basket", "turn"):
        turn = math.radians(draw.rng.choice((40, 50, 60)))
        return {}, {"lugs": float(draw.rng.choice((3, 4))), "angle": turn}
    return {}, {}


def ladders(draw: Draw) -> dict[str, Ladder]:
    """Draw the ladder of every joint.

    Parameters
    ----------
    draw : Draw
        The book's own chance.

    Returns
    -------
    dict of str to Ladder
        By joint.
    """
    drawn = {joint: _ladder(draw, joint) for joint in _LOWEST}
    caps = _CAPS[: draw.scale.families["cap"]]
    drawn["cap"] = tuple(Size(cap, 0.0, (0.0,), {"cap": cap}) for cap in caps)
    return drawn
