"""Bases, fonts, reducers and smoke bells of an invented maker."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmarks.routes.draw import carries, stands

from wickwright.catalogue.records import Footing, Form, Fuel, Need, Support
from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from benchmarks.routes.draw import Draw, Ladder, Size

    from wickwright.catalogue.records import Part, Port
    from wickwright.terms.dimension import Dimension

__all__ = ["BASE_FORMS", "bodies", "collar", "screw"]

BASE_FORMS: dict[Form, tuple[float, float, float, float]] = {
    Form.TABLE: (0.50, 1400.0, 108.0, 74.0),
    Form.SHELF: (0.24, 430.0, 72.0, 54.0),
    Form.FLOOR: (0.08, 6500.0, 1150.0, 165.0),
    Form.HANGING: (0.10, 1600.0, 820.0, 0.0),
    Form.BRACKET: (0.08, 900.0, 140.0, 0.0),
}
"""Share of bases, mass [g], height and radius [mm] of each form."""


def bodies(draw: Draw, ladders: Mapping[str, Ladder]) -> Iterator[Part]:
    """Make bases, fonts, reducers and bells.

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
    forms, shares = zip(*((form, share[0]) for form, share in BASE_FORMS.items()), strict=True)
    for _ in draw.each("base"):
        yield _base(draw, ladders, draw.rng.choices(forms, shares)[0])
    for _ in draw.each("font"):
        yield _font(draw, ladders)
    for _ in draw.each("reducer"):
        yield _reducer(draw, ladders["collar"])
    for _ in draw.each("bell"):
        yield _bell(draw, ladders["hook"])


def _base(draw: Draw, ladders: Mapping[str, Ladder], form: Form) -> Part:
    _, mass, height, radius = BASE_FORMS[form]
    mass, height, radius = draw.about(mass), draw.about(height), draw.about(radius, 0.12)
    tall = form is Form.TABLE and draw.happens(0.2)
    if tall:
        height, mass = height * 2.7, mass * 0.85
    foot = draw.common(ladders["foot"])
    low = form in (Form.HANGING, Form.BRACKET)
    top = 0.15 * height if low else 0.9 * height
    ports = [carries("recess", "rest", ("font",), foot, foot.at + draw.offset(foot), height=top)]
    if form is Form.HANGING:
        hook = draw.common(ladders["hook"])
        at = hook.at + draw.offset(hook)
        ports.append(
            carries("hook", "rest", ("bell",), hook, at, need=Need.OPTIONAL, height=0.93 * height)
        )
    return draw.part(
        "base",
        ports,
        price=(60, 150),
        mass=mass,
        height=height,
        centre=height * (0.33 if radius else 0.5),
        material=draw.rng.choice(("brass", "cast-iron", "nickel-brass")),
        support=_support(draw, form, round(radius) / 1000),
    )


def _support(draw: Draw, form: Form, radius: float) -> Support:
    if form is Form.HANGING:
        return Support(Footing.HUNG)
    if form is Form.BRACKET:
        return Support(Footing.FIXED)
    if form is Form.SHELF:
        return Support(Footing.FEET, radius, draw.rng.choice((3, 4)))
    return Support(Footing.ROUND, radius)


def _pitch(size: Size) -> Mapping[str, Dimension]:
    return {"pitch": parse_dimension("2.54 mm" if size.words["form"] == "round" else "1.41 mm")}


def collar(draw: Draw, size: Size, takes: tuple[str, ...], height: float) -> Port:
    """Make a threaded collar; height in mm."""
    at = size.at + draw.offset(size)
    return carries(
        "collar", "thread", takes, size, at, height=height, tolerance=0.05, sizes=_pitch(size)
    )


def screw(draw: Draw, size: Size) -> Port:
    """Make the thread that goes into a collar."""
    at = size.at - 0.3 + draw.offset(size)
    return stands("screw", "thread", size, at, tolerance=0.05, sizes=_pitch(size))


def _font(draw: Draw, ladders: Mapping[str, Ladder]) -> Part:
    foot, thread = draw.common(ladders["foot"]), draw.common(ladders["collar"])
    small = foot.at < 100
    height = draw.about(118 if small else 130, 0.08)
    volume = draw.about(600 if small else 900)
    glass = draw.happens(0.4)
    return draw.part(
        "font",
        [
            stands("foot", "rest", foot, foot.at - 1 + draw.offset(foot), tolerance=0.2),
            collar(draw, thread, ("burner", "reducer"), height - 3),
        ],
        price=(50, 120),
        mass=draw.about(860 if glass else 500),
        height=height,
        material="glass" if glass else draw.rng.choice(("brass", "nickel-brass")),
        fuel=Fuel(round(volume) * 1e-6, 0.013, round(0.66 * height) / 1000),
    )


def _reducer(draw: Draw, threads: Ladder) -> Part:
    below, above = draw.rng.sample(threads, 2)
    return draw.part(
        "reducer",
        [screw(draw, below), collar(draw, above, ("burner",), 14)],
        price=(14, 22),
        mass=draw.about(68),
        height=16,
        material="brass",
    )


def _bell(draw: Draw, hooks: Ladder) -> Part:
    hook = draw.common(hooks)
    return draw.part(
        "bell",
        [stands("eye", "rest", hook, hook.at - 1 + draw.offset(hook), height=66)],
        price=(20, 40),
        mass=draw.about(300),
        height=70,
        material=draw.rng.choice(("brass", "steel")),
        heat_rating=1200.0,
    )
