"""What is assumed where nobody has measured, with wide bands, each by name.

Nothing here has a source. A figure of the book takes the place of the first two tables; the
third is about the model itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

__all__ = [
    "AIR_SPREADS",
    "BY_WIDTH",
    "FLAT",
    "FLAT_WIDTH",
    "MODEL_SPREADS",
    "ROUND",
    "SAYS",
    "Assumed",
    "general_of",
    "leaf_of",
]

_RATE = 1e-3 / 3600.0


@dataclass(frozen=True, slots=True)
class Assumed:
    """A value taken where the book has none.

    Attributes
    ----------
    value, spread : float
        The value and one standard uncertainty [SI unit of the property].
    """

    value: float
    spread: float


_CHIMNEY: dict[str, Assumed] = {
    "foot_bore": Assumed(0.058, 0.006),
    "foot_length": Assumed(0.090, 0.020),
    "body_bore": Assumed(0.040, 0.005),
    "wall": Assumed(0.0020, 0.0004),
}
_MANTLE: dict[str, Assumed] = {
    "mantle_area": Assumed(48e-4, 8e-4),
    "visible": Assumed(0.50, 0.15),
    "infrared": Assumed(0.060, 0.020),
    "exchange": Assumed(2.0, 0.7),
}
ROUND: Final[dict[str, Assumed]] = {
    "passage_area": Assumed(300e-6, 100e-6),
    "passage_loss": Assumed(2.0, 0.7),
    "passage_laminar": Assumed(150e6, 75e6),
    "inner_share": Assumed(0.42, 0.10),
    "wick_limit": Assumed(85.0 * _RATE, 20.0 * _RATE),
    "fuel_mark": Assumed(62.0 * _RATE, 12.0 * _RATE),
    "least_air": Assumed(1.30, 0.12),
    "efficacy": Assumed(0.0, 0.0),
    "radiant_share": Assumed(0.0, 0.0),
    **_MANTLE,
    **_CHIMNEY,
}
"""Of a burner with a round wick under a mantle, by property of the book."""

FLAT: Final[dict[str, Assumed]] = {
    "passage_area": Assumed(190e-6, 60e-6),
    "passage_loss": Assumed(2.5, 0.8),
    "passage_laminar": Assumed(250e6, 120e6),
    "inner_share": Assumed(0.0, 0.0),
    "wick_limit": Assumed(32.0 * _RATE, 8.0 * _RATE),
    "fuel_mark": Assumed(26.0 * _RATE, 6.0 * _RATE),
    "least_air": Assumed(1.9, 0.3),
    "efficacy": Assumed(0.19, 0.05),
    "radiant_share": Assumed(0.20, 0.07),
    "mantle_area": Assumed(0.0, 0.0),
    "visible": Assumed(0.5, 0.0),
    "infrared": Assumed(0.06, 0.0),
    "exchange": Assumed(1.0, 0.0),
    **_CHIMNEY,
}
"""Of a burner with a flat wick and a yellow flame, by property of the book."""

MODEL_SPREADS: Final[dict[str, float]] = {
    "model.outer_joined": 0.20,
    "model.cooled_share": 0.12,
    "model.gas_emissivity": 0.015,
    "model.glass_emissivity": 0.03,
    "model.foot_contact": 0.15,
    "model.flame_base": 0.006,
    "model.neck_loss": 0.1,
    "model.transmission": 0.03,
    "model.soot_far_share": 0.10,
    "model.heating_value": 0.5e6,
    "model.density": 10.0,
}
"""One standard uncertainty of each number of the model [SI unit of the number]."""

FLAT_WIDTH: Final = 25.4e-3
"""Width of the flat wick that the fuel in :data:`FLAT` is of [m]."""
BY_WIDTH: Final = frozenset({"wick_limit", "fuel_mark"})
"""Properties that grow with the width of a flat wick."""

AIR_SPREADS: Final[dict[str, float]] = {
    "air.pressure": 900.0,
    "air.temperature": 2.0,
    "air.humidity": 0.15,
}
"""Of the place: the weather's pressure, and a room nobody measured [SI unit of the number]."""

_LEAVES = {
    "passage_area": "passages.area",
    "passage_loss": "passages.loss",
    "passage_laminar": "passages.laminar",
    "inner_share": "passages.inner_share",
    "wick_limit": "wick.limit",
    "least_air": "wick.least_air",
    "efficacy": "wick.efficacy",
    "radiant_share": "wick.radiant",
    "mantle_area": "mantle.area",
    "visible": "mantle.visible",
    "infrared": "mantle.infrared",
    "exchange": "mantle.exchange",
    "foot_bore": "chimney.foot_bore",
    "foot_length": "chimney.foot_length",
    "body_bore": "chimney.body_bore",
    "wall": "chimney.wall",
}


def leaf_of(name: str) -> str:
    """Return which number of a lamp a property of the book is.

    Parameters
    ----------
    name : str
        Property of the table ``flames``.

    Returns
    -------
    str
        Such as ``'passages.area'``; blank for ``fuel_mark`` and ``wick_width``.
    """
    return _LEAVES.get(name, "")


def general_of(*, flat: bool, width: float | None = None) -> dict[str, Assumed]:
    """Return what is assumed of a burner, its mantle and chimney where the book has nothing.

    Parameters
    ----------
    flat : bool
        Whether the wick is flat and the flame yellow.
    width : float or None
        Width of a flat wick [m]; None takes :data:`FLAT_WIDTH`.

    Returns
    -------
    dict of str to Assumed
        By property of the book; the fuel of a flat wick in proportion to its width
        (``assumption``: each millimetre of an even wick feeds as much).
    """
    if not flat:
        return ROUND
    share = 1.0 if width is None else width / FLAT_WIDTH
    return {
        name: Assumed(share * one.value, share * one.spread) if name in BY_WIDTH else one
        for name, one in FLAT.items()
    }


SAYS: Final[dict[str, str]] = {
    "passages.area": "area of the burner's air passages",
    "passages.loss": "loss of the burner's air passages",
    "passages.laminar": "laminar resistance of the burner",
    "passages.inner_share": "share of the air through the inner tube",
    "wick.limit": "most fuel the wick gives",
    "wick.least_air": "least air that burns clean",
    "wick.efficacy": "light of the yellow flame",
    "wick.radiant": "glow of the yellow flame",
    "mantle.area": "area of the mantle",
    "mantle.visible": "mantle's emissivity for light",
    "mantle.infrared": "mantle's emissivity for heat",
    "mantle.exchange": "mantle's exchange with the flame",
    "chimney.height": "height of the chimney",
    "chimney.foot_bore": "bore of the chimney's foot",
    "chimney.foot_length": "length of the chimney's foot",
    "chimney.body_bore": "bore of the chimney",
    "chimney.wall": "thickness of the glass",
    "air.pressure": "air pressure",
    "air.temperature": "temperature of the room",
    "air.humidity": "humidity of the room",
    "air.oxygen": "oxygen of the room's air",
    "air.carbon_dioxide": "carbon dioxide of the room's air",
    "model.outer_joined": "outer air that has joined the flame at the mantle",
    "model.cooled_share": "heat the flame has lost before it meets the mantle",
    "model.gas_emissivity": "glow of the hot gas",
    "model.glass_emissivity": "glow of the glass",
    "model.foot_contact": "contact of hot gas with the foot of the glass",
    "model.flame_base": "height at which the gas is hot",
    "model.neck_loss": "loss at the chimney's neck",
    "model.transmission": "light that passes the glass",
    "model.soot_far_share": "yellow flame's glow that the glass stops",
    "model.heating_value": "heating value of the fuel",
    "model.density": "density of the fuel",
    "fuel": "setting of the wick",
}
"""Every number of a lamp, in words."""
