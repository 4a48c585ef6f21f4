"""Chimneys, shade holders and shades of an invented maker."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.draw import carries, stands

from wickwright.catalogue.records import Need
from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchmarks.routes.draw import Draw, Ladder

    from wickwright.catalogue.records import Part, Port

__all__ = ["glass"]


def glass(draw: Draw, ladders: Mapping[str, Ladder]) -> Iterator[Part]:
    """Make chimneys, holders and shades.

    Parameters
    ----------
    draw : Draw
        The book's own chance.
    ladders : mapping of str to Ladder
        The maker's sizes.

    Yields
    ------
    Part
        One by one.
    """
    for _ in draw.each("chimney"):
        yield _chimney(draw, ladders)
    for _ in draw.each("holder"):
        yield _holder(draw, ladders)
    for _ in draw.each("shade"):
        yield _shade(draw, ladders)


def _chimney(draw: Draw, ladders: Mapping[str, Ladder]) -> Part:
    height = draw.rng.choice((230, 260, 290, 290, 300, 310, 320, 350, 400, 460))
    height += draw.rng.randint(-8, 8)
    soda = draw.happens(0.12)
    rating = draw.rng.randrange(320, 620, 20) if soda else draw.rng.randrange(860, 1240, 20)
    return draw.part(
        "chimney",
        [_foot(draw, ladders)],
        price=(18, 48),
        mass=draw.about(0.5 * height),
        height=height,
        material="soda-glass" if soda else "glass",
        heat_rating=None if draw.happens(0.07) else float(rating),
        light=max(0, (height - 290) // 20),
    )


def _foot(draw: Draw, ladders: Mapping[str, Ladder]) -> Port:
    if draw.happens(0.3):
        turn = draw.common(ladders["turn"])
        at = turn.at - 0.6 + draw.offset(turn)
        return stands("foot", "quarter-turn", turn, at, tolerance=0.2)
    fingers = draw.common(ladders["fingers"])
    seat: float | None = None if draw.happens(0.02) else fingers.at + draw.offset(fingers)
    return stands("foot", "plain-foot", fingers, seat, tolerance=0.2)


def _holder(draw: Draw, ladders: Mapping[str, Ladder]) -> Part:
    rim = draw.common(ladders["rim"])
    foot = stands("foot", "rest", rim, rim.at - 1 + draw.offset(rim))
    height = draw.about(60, 0.1)
    return draw.part(
        "holder",
        [foot, _ring(draw, ladders, 0.96 * height)],
        price=(20, 45),
        mass=draw.about(120),
        height=height,
        material=draw.rng.choice(("brass", "nickel-brass")),
    )


def _ring(draw: Draw, ladders: Mapping[str, Ladder], height: float) -> Port:
    if draw.happens(0.3):
        arms = draw.common(ladders["arms"])
        at = arms.at + draw.offset(arms)
        reach = {"capture": parse_dimension(f"{at - 1.5:.2f}..{at + 1.5:.2f} mm")}
        return carries("arms", "open-arms", ("shade",), arms, None, need=Need.OPTIONAL,
                       height=height, sizes=reach)  # fmt: skip
    ring = draw.common(ladders["ring"])
    at = ring.at + draw.offset(ring)
    return carries("ring", "fitter", ("shade",), ring, at, need=Need.OPTIONAL, height=height,
                   tolerance=0.3)  # fmt: skip


def _shade(draw: Draw, ladders: Mapping[str, Ladder]) -> Part:
    if draw.happens(0.3):
        arms = draw.common(ladders["arms"])
        port = stands("frame", "open-arms", arms, arms.at + draw.offset(arms), tolerance=0.3)
        material = draw.rng.choice(("cloth", "parchment"))
        mass, height, price = draw.about(280, 0.3), draw.about(190, 0.2), (35.0, 110.0)
    else:
        ring = draw.common(ladders["ring"])
        port = stands("fitter", "fitter", ring, ring.at - 1.6 + draw.offset(ring), height=4,
                      tolerance=0.3)  # fmt: skip
        material = "soda-glass" if draw.happens(0.2) else "glass"
        mass, height, price = draw.about(900, 0.45), draw.about(150, 0.3), (40.0, 220.0)
    weak = material == "soda-glass"
    rating = draw.rng.randrange(60, 400, 20) if weak else draw.rng.randrange(760, 1200, 20)
    return draw.part(
        "shade",
        [port],
        price=price,
        mass=mass,
        height=height,
        material=material,
        heat_rating=None if draw.happens(0.07) else float(rating),
    )
