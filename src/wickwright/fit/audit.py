"""A lamp held to every rule: all findings at once."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Need, Service
from wickwright.fit.compiled import GLASSY, HEATED, LENGTH_UNIT, heat_of
from wickwright.fit.rules import joint_finding
from wickwright.fit.stance import stance, unweighed
from wickwright.terms.finding import Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.assembly import Assembly, Mounted
    from wickwright.catalogue.records import Lamp, Part
    from wickwright.fit.joiner import Joiner
    from wickwright.fit.place import Place
    from wickwright.fit.settings import Settings
    from wickwright.terms.finding import Fact

__all__ = ["CARRIERS", "audit", "called", "fill_word"]


def called(part: Part) -> str:
    """Return a part's name with its number, as findings call it."""
    return f"{part.name} ({part.id})"


def audit(
    assembly: Assembly, lamp: Lamp | None, place: Place, joiner: Joiner
) -> tuple[Finding, ...]:
    """Hold an assembled lamp to every rule.

    Parameters
    ----------
    assembly : Assembly
        The lamp.
    lamp : Lamp or None
        Its model, for what its form needs; None when not known.
    place : Place
        Where it stands.
    joiner : Joiner
        Judges the joints, with the limits in force.

    Returns
    -------
    tuple of Finding
        Gravest first; good findings on joints are left out, the one on standing is kept.
    """
    found = [
        *_joints(assembly, joiner),
        *_missing(assembly, lamp),
        *_homeless(assembly),
        *_mixed(assembly),
        *_in_the_heat(assembly),
        *drawing(assembly, place),
        *_standing(assembly, joiner.settings),
    ]
    return tuple(sorted(found, key=lambda finding: -finding.severity))


def _joints(assembly: Assembly, joiner: Joiner) -> Iterator[Finding]:
    for below, above in assembly.joints():
        if above.on and above.by:
            verdict = joiner.joined(below.part, above.on, above.part, above.by)
            finding = joint_finding(verdict, above.on.joint, below.part, above.part)
            if finding.severity > Severity.GOOD:
                yield finding


def _missing(assembly: Assembly, lamp: Lamp | None) -> Iterator[Finding]:
    for it in assembly.walk():
        for port in it.empty_ports():
            if port.need is Need.REQUIRED:
                facts = {"carrier": called(it.part), "kinds": " or ".join(port.takes)}
                yield Finding("incomplete", Severity.FAULT, (it.part.id,), facts)
    for kind in lamp.needs if lamp else ():
        if lamp and assembly.of_kind(kind) is None:
            facts = {"lamp": lamp.name, "kinds": kind}
            yield Finding("needs", Severity.FAULT, (), facts)


def _homeless(assembly: Assembly) -> Iterator[Finding]:
    mounted = {it.part.kind: it.part for it in assembly.walk()}
    for part in assembly.loose:
        other = mounted.get(part.kind)
        if other:
            facts = {"part": called(part), "kinds": part.kind, "other": called(other)}
            yield Finding("twice", Severity.FAULT, (part.id, other.id), facts)
        else:
            facts = {"part": called(part), "kinds": part.kind, "carriers": _carriers(part)}
            yield Finding("no-place", Severity.FAULT, (part.id,), facts)


CARRIERS = {
    "shade": "a shade holder",
    "chimney": "a gallery",
    "gallery": "a burner",
    "mantle": "a burner or gallery",
    "wick": "a burner",
    "holder": "a burner or gallery",
    "bell": "a hanging frame or bracket",
    "bulb": "an electric burner",
    "burner": "a font",
    "tool": "a burner",
}
"""What each kind of part stands on, in words."""


def _carriers(part: Part) -> str:
    return CARRIERS.get(part.kind, "its counterpart")


def _mixed(assembly: Assembly) -> Iterator[Finding]:
    """Parts of one service beside the burner of the other."""
    burner = assembly.of_kind("burner")
    service = burner.part.service if burner else None
    if burner is None or service is None:
        return
    everyone = [it.part for it in assembly.walk()] + list(assembly.loose)
    for part in everyone:
        if part.service is not None and part.service is not service:
            facts = {
                "part": called(part),
                "service": part.service.value,
                "other": called(burner.part),
            }
            yield Finding("oil-and-electric", Severity.DANGER, (part.id, burner.part.id), facts)


def _in_its_heat(assembly: Assembly) -> Iterator[tuple[Part, Part]]:
    """Each burner with what stands above it, and with the bell over the lamp."""
    yield from _above_burners(assembly)
    burner, bell = assembly.of_kind("burner"), assembly.of_kind("bell")
    if burner and bell:
        yield burner.part, bell.part


def _above_burners(assembly: Assembly) -> Iterator[tuple[Part, Part]]:
    for it in assembly.walk():
        if it.part.kind == "burner":
            for above in it.walk():
                if above.part.kind in HEATED:
                    yield it.part, above.part


def _in_the_heat(assembly: Assembly) -> Iterator[Finding]:
    for burner, part in _in_its_heat(assembly):
        heat = Quantity(math.ceil(heat_of(burner)), Kind.POWER)
        facts = {"part": called(part), "burner": called(burner)}
        if part.heat_rating is None:
            if part.material in GLASSY and heat.value > 0:
                yield Finding(
                    "heat-unknown", Severity.UNKNOWN, (part.id, burner.id), facts, measured=heat
                )
        elif math.floor(part.heat_rating) < heat.value:
            allowed = Range(None, part.heat_rating, Kind.POWER)
            yield Finding(
                "heat", Severity.DANGER, (part.id, burner.id), facts, heat, permitted=allowed
            )


def drawing(assembly: Assembly, place: Place) -> Iterator[Finding]:
    """Hold the chimney of a lamp to what its burner needs at a place.

    Parameters
    ----------
    assembly : Assembly
        The lamp.
    place : Place
        Where it stands.

    Yields
    ------
    Finding
        Where the chimney is too short, or its height is not known.
    """
    for burner, part in _above_burners(assembly):
        if part.kind != "chimney" or not burner.least_chimney:
            continue
        least = place.chimney_needed(burner.least_chimney)
        facts: dict[str, Fact] = {
            "part": called(part),
            "burner": called(burner),
            "elevation": Quantity(place.elevation, Kind.ELEVATION),
        }
        needed = Range(least, None, Kind.LENGTH)
        concerned = (part.id, burner.id)
        if part.height is None:
            yield Finding("draft-unknown", Severity.UNKNOWN, concerned, facts, permitted=needed)
        elif _too_short(part.height, burner.least_chimney, place):
            height = Quantity(part.height, Kind.LENGTH)
            yield Finding("draft", Severity.FAULT, concerned, facts, height, permitted=needed)


def _too_short(height: float, least: float, place: Place) -> bool:
    """Compare in tenths of a millimetre, as the route search does."""
    up, down = place.scale
    return round(height / LENGTH_UNIT) * down < round(least / LENGTH_UNIT) * up


def _standing(assembly: Assembly, settings: Settings) -> Iterator[Finding]:
    burner = assembly.of_kind("burner")
    dry = burner is not None and burner.part.service is Service.ELECTRIC
    unknown = unweighed(assembly)
    stances = stance(assembly, settings, dry=dry)
    if not stances or stances[0].reach == 0.0:
        return
    if unknown:
        facts = {"part": ", ".join(unknown)}
        yield Finding("unweighed", Severity.UNKNOWN, unknown, facts)
        return
    worst = min(stances, key=lambda one: one.angle)
    limit = settings.limit
    tips = worst.angle < limit.angle
    yield Finding(
        "tips" if tips else "stands",
        Severity.DANGER if tips else Severity.GOOD,
        _heaviest_on_top(assembly),
        {"fill": fill_word(worst.fill)},
        measured=Quantity(worst.angle, Kind.ANGLE),
        permitted=Range(limit.angle, None, Kind.ANGLE),
        source=limit.source,
    )


def _heaviest_on_top(assembly: Assembly) -> tuple[str, ...]:
    """The parts a tipping lamp is about: what it stands on, and its shade."""
    concerned: list[Mounted | None] = [assembly.root, assembly.of_kind("shade")]
    return tuple(it.part.id for it in concerned if it is not None)


def fill_word(fill: float) -> str:
    """Return how full a font is, in words."""
    names = {0.0: "empty", 0.5: "half full", 1.0: "full"}
    return names.get(fill, f"{fill * 100:.0f} % full")
