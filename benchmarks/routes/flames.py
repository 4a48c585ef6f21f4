"""Burners and what belongs to the flame: wicks, spreaders, galleries, mantles, tools, bulbs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.bodies import screw
from benchmarks.routes.draw import carries, stands

from wickwright.catalogue.records import Need, Service

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchmarks.routes.draw import Draw, Ladder, Size

    from wickwright.catalogue.records import Part, Port

__all__ = ["flames"]

_ON_BURNER = 0.35
"""Share of baskets whose mantle stands on the burner, not on the gallery."""


def flames(draw: Draw, ladders: Mapping[str, Ladder]) -> Iterator[Part]:
    """Make burners and all that belongs to the flame.

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
    on_burner = {size.label for size in ladders["basket"] if draw.happens(_ON_BURNER)}
    generations = _generations(draw, ladders)
    for turn in draw.each("burner"):
        if turn % 9 < 7:
            yield _burner(draw, ladders, draw.common(generations), on_burner)
        else:
            yield _electric(draw, ladders)
    for _ in draw.each("gallery"):
        yield _gallery(draw, ladders, on_burner)
    yield from _small(draw, ladders)


def _generations(draw: Draw, ladders: Mapping[str, Ladder]) -> list[dict[str, Size]]:
    """Burners of one generation share all their sizes but not their drawings."""
    joints = ("collar", "wick", "tube", "basket", "mantle", "rim")
    count = 2 * len(ladders["basket"])
    return [{joint: draw.common(ladders[joint]) for joint in joints} for _ in range(count)]


def _rim(draw: Draw, size: Size, height: float) -> Port:
    at = size.at + draw.offset(size)
    return carries("rim", "rest", ("holder",), size, at, need=Need.OPTIONAL, height=height)


def _mantle_seat(draw: Draw, size: Size, height: float) -> Port:
    return carries(
        "mantle seat", "mantle", ("mantle",), size, size.at + draw.offset(size), height=height
    )


def _burner(
    draw: Draw, ladders: Mapping[str, Ladder], sizes: Mapping[str, Size], on_burner: set[str]
) -> Part:
    height = draw.about(74, 0.1)
    wick, tube, basket = sizes["wick"], sizes["tube"], sizes["basket"]
    bore = wick.at + draw.offset(wick)
    ports = [
        screw(draw, sizes["collar"]),
        carries("wick tube", "wick", ("wick",), wick, bore, height=0.65 * height),
        carries("care", "wick", ("tool",), wick, bore, need=Need.CARE, height=0.8 * height),
        carries("inner tube", "rest", ("spreader",), tube, tube.at + draw.offset(tube),
                height=0.75 * height),
        carries("basket", "quarter-turn", ("gallery",), basket, basket.at + draw.offset(basket),
                height=0.57 * height),
        _rim(draw, sizes["rim"], 0.46 * height),
    ]  # fmt: skip
    if basket.label in on_burner:
        ports.append(_mantle_seat(draw, sizes["mantle"], 0.9 * height))
    return draw.part(
        "burner",
        ports,
        price=(80, 130),
        mass=draw.about(380),
        height=height,
        material=draw.rng.choice(("brass", "brass", "nickel-brass")),
        service=Service.OIL,
        light=draw.rng.randint(152, 168),
        heat=float(draw.rng.randrange(700, 920, 20)),
        least_chimney=draw.rng.randrange(225, 300, 5) / 1000,
    )


def _electric(draw: Draw, ladders: Mapping[str, Ladder]) -> Part:
    fingers, cap = draw.common(ladders["fingers"]), draw.common(ladders["cap"])
    watts = {"limit": float(draw.rng.choice((40, 60, 75, 100)))}
    return draw.part(
        "burner",
        [
            screw(draw, draw.common(ladders["collar"])),
            carries("lampholder", "lampholder", ("bulb",), cap, None, height=52, numbers=watts),
            carries("seat", "plain-foot", ("chimney",), fingers, None, need=Need.OPTIONAL,
                    height=44, capture=fingers.at + draw.offset(fingers)),
            _rim(draw, draw.common(ladders["rim"]), 34),
        ],
        price=(40, 70),
        mass=draw.about(240),
        height=78,
        material="brass",
        service=Service.ELECTRIC,
    )  # fmt: skip


def _gallery(draw: Draw, ladders: Mapping[str, Ladder], on_burner: set[str]) -> Part:
    height = draw.about(40, 0.12)
    basket = draw.common(ladders["basket"])
    ports = [
        stands("skirt", "quarter-turn", basket, basket.at - 0.6 + draw.offset(basket), height=4),
        _seat(draw, ladders),
    ]
    if basket.label not in on_burner:
        ports.append(_mantle_seat(draw, draw.common(ladders["mantle"]), 0.95 * height))
    if draw.happens(0.15):
        ports.append(_rim(draw, draw.common(ladders["rim"]), 0.3 * height))
    return draw.part(
        "gallery",
        ports,
        price=(32, 56),
        mass=draw.about(98),
        height=height,
        material=draw.rng.choice(("brass", "brass", "nickel-brass")),
        service=Service.OIL,
    )


def _seat(draw: Draw, ladders: Mapping[str, Ladder]) -> Port:
    if draw.happens(0.35):
        turn = draw.common(ladders["turn"])
        at = turn.at + draw.offset(turn)
        return carries("seat", "quarter-turn", ("chimney",), turn, at, height=9)
    fingers = draw.common(ladders["fingers"])
    at = fingers.at + draw.offset(fingers)
    return carries("seat", "plain-foot", ("chimney",), fingers, None, height=9, capture=at)


def _small(draw: Draw, ladders: Mapping[str, Ladder]) -> Iterator[Part]:
    for _ in draw.each("wick"):
        size = draw.common(ladders["wick"])
        port = stands("tube", "wick", size, size.at - 0.3 + draw.offset(size), height=132)
        yield draw.part("wick", [port], price=(10, 20), mass=draw.about(14), height=150,
                        material="cotton", service=Service.OIL)  # fmt: skip
    for _ in draw.each("spreader"):
        size = draw.common(ladders["tube"])
        port = stands("foot", "rest", size, size.at - 1 + draw.offset(size))
        yield draw.part("spreader", [port], price=(12, 24), mass=draw.about(18), height=26,
                        material="nickel-brass", service=Service.OIL,
                        light=3 if draw.happens(0.15) else 0)  # fmt: skip
    for _ in draw.each("mantle"):
        size = draw.common(ladders["mantle"])
        port = stands("ring", "mantle", size, size.at - 0.3 + draw.offset(size))
        yield draw.part("mantle", [port], price=(13, 24), mass=4, height=draw.about(76, 0.08),
                        material="oxide", service=Service.OIL,
                        light=draw.rng.choice((-3, 0, 0, 0, 8, 10)))  # fmt: skip
    for _ in draw.each("tool"):
        size = draw.common(ladders["wick"])
        port = stands("mouth", "wick", size, size.at - 0.3 + draw.offset(size))
        yield draw.part("tool", [port], price=(14, 26), mass=draw.about(60), height=34,
                        material="brass", service=Service.OIL)  # fmt: skip
    for _ in draw.each("bulb"):
        yield _bulb(draw, draw.common(ladders["cap"]))


def _bulb(draw: Draw, cap: Size) -> Part:
    watts = draw.rng.choice((25, 40, 60, 75, 100))
    light = {25: 62, 40: 116, 60: 164, 75: 190, 100: 224}[watts]
    port = stands("cap", "lampholder", cap, None, numbers={"limit": float(watts)})
    return draw.part("bulb", [port], price=(4, 10), mass=draw.about(34), height=draw.about(104, 0.1),
                     material="soda-glass", service=Service.ELECTRIC, heat=float(watts),
                     light=light + draw.rng.randint(-6, 2))  # fmt: skip
