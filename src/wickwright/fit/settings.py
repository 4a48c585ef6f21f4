"""What a support lead may set, with the source of each default."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickwright.fit.joints.verdict import COLD, Warmth
from wickwright.fit.search.effort import ALLOWED

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["HOT_JOINTS", "TIP_LIMITS", "Settings", "TipLimit"]


@dataclass(frozen=True, slots=True)
class TipLimit:
    """A slope a lamp must stand on, turned the worst way.

    Attributes
    ----------
    angle : float
        Slope [rad].
    source : str
        Key of the bibliography.
    """

    angle: float
    source: str


TIP_LIMITS: dict[str, TipLimit] = {
    "ul153": TipLimit(math.radians(8), "ul153"),
    "ul153toy": TipLimit(math.radians(15), "ul153toy"),
    "iec60598-2-4": TipLimit(math.radians(6), "iec60598-2-4"),
    "iec60598-2-7": TipLimit(math.radians(15), "iec60598-2-7"),
    "iec60598-2-10": TipLimit(math.radians(15), "iec60598-2-10"),
    "en15493": TipLimit(math.radians(10), "en15493"),
    "iec60335-1": TipLimit(math.radians(10), "iec60335-1"),
}
"""The limits to choose from. None of them was written for lamps with fuel; the strictest
that names a portable lamp in use is the default."""

HOT_JOINTS: dict[str, Warmth] = {
    "plain-foot": Warmth(carrier=383.15, stander=423.15),
    "quarter-turn": Warmth(carrier=383.15, stander=423.15),
}
"""Temperatures of gallery and glass foot in service: an assumption (110 °C and 150 °C)."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Limits in force.

    Attributes
    ----------
    tip : str
        Key of :data:`TIP_LIMITS`.
    fills : tuple of float
        Fillings of the font at which balance is tested, 0 empty to 1 full.
    fuel_density : float
        Of kerosene [kg/m3] (source key ``staffell2011``).
    warm : mapping of str to Warmth
        Service temperatures by joint.
    effort : int
        Steps of work before the route search gives up, and as many again for the reason why
        there is no route (:mod:`wickwright.fit.search.effort`).
    """

    tip: str = "ul153"
    fills: tuple[float, ...] = (0.0, 0.5, 1.0)
    fuel_density: float = 807.0
    warm: Mapping[str, Warmth] = field(default_factory=lambda: HOT_JOINTS)
    effort: int = ALLOWED

    @property
    def limit(self) -> TipLimit:
        """The tip limit in force."""
        return TIP_LIMITS[self.tip]

    def warmth(self, joint: str) -> Warmth:
        """Return the service temperatures of a joint."""
        return self.warm.get(joint, COLD)
