"""What heat does to the glass: at lighting, in service, in a draught, splashed, in its seat.

The strength of a surface that has been handled and cleaned is an assumption, and so is every
number at the head of this file; the formulas are those of handbooks.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.physics.glass import (
    BOROSILICATE,
    BRASS,
    SODA_LIME,
    STEEL,
    Glass,
    clamped_stress,
    wall_drop,
    wall_stress,
)

if TYPE_CHECKING:
    from wickwright.burn.predicting import Prediction
    from wickwright.catalogue.assembly import Assembly, Mounted
    from wickwright.catalogue.records import Port

__all__ = [
    "GLASSES",
    "KNOWN_WITHIN",
    "STRENGTH",
    "GlassMargins",
    "Seat",
    "Stress",
    "glass_margins",
    "ring_stress",
    "seat_of",
    "seat_warmth",
]

GLASSES: Final[dict[str, Glass]] = {"glass": BOROSILICATE, "soda-glass": SODA_LIME}
"""Glasses by material of the fit book."""
STRENGTH: Final = 30e6
"""Tension that glass in use stands [Pa]: ``assumption``."""
KNOWN_WITHIN: Final = 1.5
"""Factor within which the strength is known [-]: ``assumption``."""
FOOT_EDGE: Final = 0.35
"""Rise of the glass where it is seated, over that of the glass round the flame [-]:
``assumption``, within 0.10."""
GALLERY: Final = 0.22
"""Rise of the gallery over the same [-]: ``assumption``, within 0.08; the draft cools it."""
DRAUGHT: Final = 40.0
"""Heat-transfer coefficient of a cold draught on hot glass [W/(m2 K)]: ``assumption``."""
WATER: Final = 293.15
"""Temperature of a splash [K]: ``assumption``."""
TAKEN_UP: Final = 0.5
"""Share of the room a seat gains when hot that lean, crust or a turn takes up [-]:
``assumption``, within 0.25."""
FINGERS: Final = 6
"""Spring fingers of a plain seat: ``assumption``."""
FINGER: Final = 4000.0
"""Stiffness of one finger [N/m]: ``assumption``, within a factor of 2."""
RIM: Final = 0.015
"""Height of glass that bends with the rim of the foot [m]: ``assumption``."""

_ROOM = 293.15
_WATER_EFFUSIVITY = 1580.0  # W s0.5/(m2 K), handbook value
_HEAT_CAPACITY = 840.0  # J/(kg K), of either glass near 100 °C, handbook value
_EXPANSIONS = {"brass": BRASS.value, "nickel-brass": BRASS.value, "steel": STEEL.value}
_LEAST_LUGS = 3


@dataclass(frozen=True, slots=True)
class Seat:
    """How a chimney is held.

    Attributes
    ----------
    joint : str
        ``'plain-foot'`` or ``'quarter-turn'``.
    diameter : float
        Of the foot [m].
    gap : float
        Least cold clearance of a quarter-turn seat, or how far the foot spreads the fingers
        of a plain one [m].
    lugs : int
        Places where it is held.
    expansion : float
        Of the metal [1/K].
    """

    joint: str
    diameter: float
    gap: float
    lugs: int
    expansion: float


@dataclass(frozen=True, slots=True)
class Stress:
    """Tension in one case.

    Attributes
    ----------
    case : str
        ``'lighting'``, ``'service'``, ``'draught'``, ``'splash'`` or ``'seat'``.
    tension : float
        Greatest tension [Pa].
    margin : float
        :data:`STRENGTH` over it [-].
    assumed : str
        What was assumed, in words.
    """

    case: str
    tension: float
    margin: float
    assumed: str


@dataclass(frozen=True, slots=True)
class GlassMargins:
    """How far a chimney is from breaking.

    Attributes
    ----------
    material : str
        ``'glass'`` or ``'soda-glass'``.
    warmest, allowed : float
        Hottest glass, and what this glass stands for a short time [K].
    cases : tuple of Stress
        In the order above; the seat last, where it is known.
    foot, gallery : float
        Temperature of the glass and of the metal at the seat [K].
    """

    material: str
    warmest: float
    allowed: float
    cases: tuple[Stress, ...]
    foot: float
    gallery: float

    def of(self, case: str) -> Stress:
        """Return one case.

        Raises
        ------
        KeyError
            When it was not computed.
        """
        for one in self.cases:
            if one.case == case:
                return one
        raise KeyError(case)


def seat_warmth(prediction: Prediction) -> tuple[float, float]:
    """Return the temperatures at the seat of the chimney.

    Parameters
    ----------
    prediction : Prediction
        How the lamp burns.

    Returns
    -------
    tuple of float
        Of the gallery that carries, and of the foot that stands [K]: what a joint rule needs
        for the clearance hot. :data:`GALLERY` and :data:`FOOT_EDGE` are assumptions.
    """
    room = float(prediction.lamp.lamps.air.temperature)
    rise = float(prediction.flames.glass_foot) - room
    return room + GALLERY * rise, room + FOOT_EDGE * rise


def _seat_port(assembly: Assembly) -> tuple[Mounted, Mounted] | None:
    return next((pair for pair in assembly.joints() if pair[1].part.kind == "chimney"), None)


def seat_of(assembly: Assembly) -> Seat | None:
    """Return how the chimney of a lamp is held.

    Parameters
    ----------
    assembly : Assembly
        The lamp.

    Returns
    -------
    Seat or None
        None where the chimney or a size of its seat is missing.
    """
    pair = _seat_port(assembly)
    if pair is None or pair[1].on is None or pair[1].by is None:
        return None
    below, above = pair
    expansion = _EXPANSIONS.get(below.part.material, BRASS.value)
    return _seat(pair[1].on, above.by, expansion) if above.by else None


def _seat(on: Port, by: Port, expansion: float) -> Seat | None:
    foot = by.sizes.get("diameter")
    bore = on.sizes.get("diameter" if on.joint == "quarter-turn" else "capture")
    if foot is None or bore is None or on.joint not in ("quarter-turn", "plain-foot"):
        return None
    if on.joint == "plain-foot":
        spread = max(0.0, foot.high - bore.low)
        return Seat(on.joint, foot.nominal, spread, FINGERS, expansion)
    lugs = max(_LEAST_LUGS, int(on.numbers.get("lugs", _LEAST_LUGS)))
    return Seat(on.joint, foot.nominal, bore.low - foot.high, lugs, expansion)


def _bending(lugs: int) -> tuple[float, float]:
    """Return moment and inward give under each of evenly spaced loads on a ring.

    Notes
    -----
    M/(P R) = (1/a - cot a)/2 and w E I/(P R**3) = (a/(2 sin**2 a) + cot(a)/2 - 1/a)/2 with
    a = pi/n, ``roark``.
    """
    half = math.pi / lugs
    cotangent = 1.0 / math.tan(half)
    moment = 0.5 * (1.0 / half - cotangent)
    give = 0.5 * (half / (2.0 * math.sin(half) ** 2) + 0.5 * cotangent - 1.0 / half)
    return moment, give


def ring_stress(modulus: float, wall: float, radius: float, lugs: int, pushed: float) -> float:
    """Return the tension in a glass ring that lugs push in.

    Parameters
    ----------
    modulus : float
        Young's modulus [Pa].
    wall, radius : float
        Thickness and radius of the ring [m].
    lugs : int
        Number of lugs, evenly spaced.
    pushed : float
        How far each pushes the ring in [m].

    Returns
    -------
    float
        Greatest bending tension [Pa].

    Notes
    -----
    M t/(2 I) with the moment that gives this displacement, ``roark``: the height of the ring
    drops out.
    """
    moment, give = _bending(lugs)
    return moment / give * modulus * pushed * wall / (2.0 * radius**2)


def _finger_stress(wall: float, radius: float, pushed: float) -> float:
    """Tension in a ring that spring fingers hold, each with a force and no more [Pa]."""
    moment, _ = _bending(FINGERS)
    inertia = RIM * wall**3 / 12.0
    return moment * FINGER * pushed * radius * wall / (2.0 * inertia)


def _seat_stress(glass: Glass, seat: Seat, wall: float, gallery: float, foot: float) -> Stress:
    metal, grown = (
        seat.diameter * seat.expansion * (gallery - _ROOM),
        seat.diameter * glass.expansion * (foot - _ROOM),
    )
    radius = 0.5 * (seat.diameter - wall)
    if seat.joint == "plain-foot":
        pushed = 0.5 * max(0.0, seat.gap + grown - metal)
        tension = _finger_stress(wall, radius, pushed)
        assumed = (
            f"{FINGERS} spring fingers of {FINGER / 1000.0:.0f} N/mm take up what the foot grows"
        )
        return _stress("seat", tension, assumed)
    opened = metal - grown
    lost = max(0.0, TAKEN_UP * opened, grown - seat.gap, -seat.gap - opened)
    tension = ring_stress(glass.modulus, wall, radius, seat.lugs, 0.5 * lost)
    assumed = (
        f"lean, crust or a turn takes up {100.0 * TAKEN_UP:.0f} % of the room that the seat "
        f"gains hot, and {seat.lugs} lugs that do not give press it back as the metal cools"
    )
    return _stress("seat", tension, assumed)


def _stress(case: str, tension: float, assumed: str) -> Stress:
    margin = STRENGTH / tension if tension > 0.0 else math.inf
    return Stress(case, tension, margin, assumed)


def _chilled(glass: Glass, wall: float, coefficient: float) -> float:
    """Share of the full thermal stress that a chill of one side brings [-].

    Notes
    -----
    1/(1.5 + 3.25/Bi - 0.5 exp(-16/Bi)), ``kingery1955``, from memory.
    """
    biot = coefficient * wall / glass.conductivity
    return 1.0 / (1.5 + 3.25 / biot - 0.5 * math.exp(-16.0 / biot))


def _wetted(glass: Glass) -> float:
    """Share of the difference by which touching water chills a surface at once [-]."""
    own = math.sqrt(glass.conductivity * glass.density * _HEAT_CAPACITY)
    return _WATER_EFFUSIVITY / (_WATER_EFFUSIVITY + own)


def _cases(prediction: Prediction, glass: Glass) -> list[Stress]:
    flames, lamps = prediction.flames, prediction.lamp.lamps
    wall, room = float(lamps.chimney.wall), float(lamps.air.temperature)
    hot, flux = prediction["glass"].value, float(flames.flux_foot)
    gas = 0.5 * (float(flames.gas) + float(flames.gas_neck))
    cold_flux = flux * (gas - room) / (gas - float(flames.glass_foot))
    lighting = wall_stress(glass, wall_drop(glass, cold_flux, wall))
    service = wall_stress(glass, wall_drop(glass, flux, wall))
    draught = clamped_stress(glass, hot - room) * _chilled(glass, wall, DRAUGHT)
    splash = clamped_stress(glass, hot - WATER) * _wetted(glass)
    return [
        _stress("lighting", lighting, "the full flame meets cold glass at once"),
        _stress("service", service, "the heat passes through the wall steadily"),
        _stress("draught", draught, f"cold air at {DRAUGHT:.0f} W/(m2 K) on the hottest glass"),
        _stress("splash", splash, "drops of water at 20 °C on the hottest glass"),
    ]


def glass_margins(
    prediction: Prediction, seat: Seat | None = None, material: str = ""
) -> GlassMargins:
    """Return how far a chimney is from breaking.

    Parameters
    ----------
    prediction : Prediction
        How the lamp burns.
    seat : Seat or None
        How the chimney is held; None leaves the seat out.
    material : str
        Glass to reckon with; blank takes that of the chimney, heat-rated where unknown.

    Returns
    -------
    GlassMargins
        Tension and margin in each case.
    """
    named = material or prediction.lamp.chimney.material
    glass = GLASSES.get(named, BOROSILICATE)
    gallery, foot = seat_warmth(prediction)
    cases = _cases(prediction, glass)
    if seat:
        wall = float(prediction.lamp.lamps.chimney.wall)
        cases.append(_seat_stress(glass, seat, wall, gallery, foot))
    return GlassMargins(
        material=named,
        warmest=prediction["glass"].value,
        allowed=glass.warmest,
        cases=tuple(cases),
        foot=foot,
        gallery=gallery,
    )
