"""Which ports fit which: worked out once for every pair of kinds of port, not of parts.

Ten thousand parts have a few hundred different ports. Each different port is judged once
against each different port of the same joint; all parts share the outcome. The verdicts are
kept, so that a changed book is judged only where a port is new.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import ACCEPTED, Fit, Half

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickwright.catalogue.records import Part, Port
    from wickwright.fit.settings import Settings

__all__ = ["Classes", "PortClass", "Verdicts", "port_class", "port_classes", "unmeasured"]

_SEATS = frozenset({"diameter", "capture"})

PortClass = tuple[object, ...]
"""Everything about a port that a joint rule reads."""


@dataclass
class Verdicts:
    """What was judged so far, by the two classes of port.

    Attributes
    ----------
    known : dict
        Verdict by carrying and standing class.
    judged : int
        How many pairs had to be judged anew.
    """

    known: dict[tuple[PortClass, PortClass], Fit] = field(default_factory=dict)
    judged: int = 0


@dataclass(frozen=True)
class Classes:
    """The different ports of a book and how they fit.

    Attributes
    ----------
    fits, unsure : mapping of PortClass to frozenset of PortClass
        For each carrying class the standing classes that fit, or of which it is not known.
    standing : mapping of PortClass to tuple of int
        Parts that stand by a port of the class.
    """

    fits: Mapping[PortClass, frozenset[PortClass]]
    unsure: Mapping[PortClass, frozenset[PortClass]]
    standing: Mapping[PortClass, tuple[int, ...]]


def unmeasured(port: Port) -> bool:
    """Tell whether the size that a joint turns on is not known.

    Parameters
    ----------
    port : Port
        The half of a joint.

    Returns
    -------
    bool
        True without a diameter and without a range that is taken; never for lampholders.
    """
    return port.joint != "lampholder" and _SEATS.isdisjoint(port.sizes)


def port_class(part: Part, port: Port) -> PortClass:
    """Return what decides how a port joins.

    Parameters
    ----------
    part : Part
        For its material, and for its own number where the port has neither seat nor label.
    port : Port
        The half of a joint.

    Returns
    -------
    PortClass
        Equal for ports that join alike.
    """
    alone = part.id if unmeasured(port) and not port.label else ""
    return (
        port.joint,
        part.material,
        tuple(sorted((name, it.low, it.high) for name, it in port.sizes.items())),
        tuple(sorted(port.words.items())),
        tuple(sorted(port.numbers.items())),
        port.label,
        alone,
    )


def port_classes(
    parts: Sequence[Part],
    settings: Settings,
    together: Iterable[tuple[PortClass, PortClass]],
    verdicts: Verdicts,
) -> Classes:
    """Judge every pair of different ports.

    Parameters
    ----------
    parts : sequence of Part
        All parts of the book.
    settings : Settings
        Service temperatures.
    together : iterable of pairs of PortClass
        Pairs sold mounted on each other: taken to fit where sizes cannot tell.
    verdicts : Verdicts
        What is known already; added to.

    Returns
    -------
    Classes
        Who fits whom.
    """
    carrying: dict[PortClass, Half] = {}
    standing: dict[PortClass, Half] = {}
    holders: defaultdict[PortClass, list[int]] = defaultdict(list)
    for number, part in enumerate(parts):
        for port in part.carries:
            carrying.setdefault(port_class(part, port), Half(port, part.material))
        for port in part.stands:
            key = port_class(part, port)
            standing.setdefault(key, Half(port, part.material))
            holders[key].append(number)
    by_joint: defaultdict[str, list[PortClass]] = defaultdict(list)
    for key, half in standing.items():
        by_joint[half.port.joint].append(key)
    sold = set(together)
    fits: dict[PortClass, frozenset[PortClass]] = {}
    unsure: dict[PortClass, frozenset[PortClass]] = {}
    for key, half in carrying.items():
        others = by_joint[half.port.joint]
        graded = {
            other: _graded(key, other, half, standing[other], settings, sold, verdicts)
            for other in others
        }
        fits[key] = frozenset(other for other, fit in graded.items() if fit in ACCEPTED)
        unsure[key] = frozenset(other for other, fit in graded.items() if fit is Fit.UNKNOWN)
    return Classes(fits, unsure, {key: tuple(numbers) for key, numbers in holders.items()})


def _graded(
    key: PortClass,
    other: PortClass,
    carrier: Half,
    stander: Half,
    settings: Settings,
    sold: set[tuple[PortClass, PortClass]],
    verdicts: Verdicts,
) -> Fit:
    fit = verdicts.known.get((key, other))
    if fit is None:
        verdicts.judged += 1
        fit = judge(carrier, stander, settings.warmth(carrier.port.joint)).fit
        verdicts.known[key, other] = fit
    if fit is Fit.UNKNOWN and (key, other) in sold:
        return Fit.FITS
    return fit
