"""What heat the things around a lamp stand, evening after evening."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickwright.catalogue.spelling import meant
from wickwright.room.checks import RoomError

__all__ = ["TOLERANCES", "WOOD_IN_CODES", "Tolerance", "tolerance_of"]


@dataclass(frozen=True, slots=True)
class Tolerance:
    """The greatest heat a material stands for years.

    Attributes
    ----------
    material : str
        As the fit book names it, or what a room is made of.
    limit : float
        Highest temperature [K].
    why : str
        What happens above it, in words.
    source : str
        Key of the bibliography.
    """

    material: str
    limit: float
    why: str
    source: str


_ZERO = 273.15
WOOD_IN_CODES: Final = Tolerance(
    "wood", _ZERO + 90.0, "the surface limit for wood in US appliance standards", "wood-appliances"
)
"""The milder of two limits for wood, from memory; :data:`TOLERANCES` has the stricter."""

_CELLULOSE = "it is the stuff of wood and is held to the limit of wood"
TOLERANCES: Final = (
    Tolerance(
        "wood",
        _ZERO + 77.0,
        "wood kept hotter for years chars and can light by itself",
        "wood-self-heating",
    ),
    Tolerance("plaster", _ZERO + 77.0, "there is wood or paper behind it", "assumption"),
    Tolerance("cloth", _ZERO + 77.0, _CELLULOSE, "assumption"),
    Tolerance("parchment", _ZERO + 77.0, _CELLULOSE, "assumption"),
    Tolerance("soda-glass", _ZERO + 110.0, "uneven heat cracks it", "assumption"),
    Tolerance("glass", _ZERO + 500.0, "heat-rated glass is made for no more", "iso3585"),
    Tolerance("porcelain", _ZERO + 300.0, "uneven heat crazes and cracks it", "assumption"),
    Tolerance("brass", _ZERO + 180.0, "soft solder lets go and lacquer burns", "assumption"),
    Tolerance("nickel-brass", _ZERO + 180.0, "soft solder lets go", "assumption"),
    Tolerance("aluminium", _ZERO + 200.0, "it softens", "assumption"),
    Tolerance("steel", _ZERO + 300.0, "enamel and paint burn off", "assumption"),
    Tolerance("cast-iron", _ZERO + 300.0, "enamel and paint burn off", "assumption"),
)
"""Published limits where there are any; the rest are assumptions of ours, on the safe side
of handbook figures, open to measurement."""

_BY_NAME: Final = {entry.material: entry for entry in TOLERANCES}


def tolerance_of(material: str) -> Tolerance:
    """Return what a material stands.

    Parameters
    ----------
    material : str
        Such as ``'wood'``.

    Returns
    -------
    Tolerance
        Its limit.

    Raises
    ------
    RoomError
        When the material is not in the table; says which was meant, or all there are.
    """
    if material in _BY_NAME:
        return _BY_NAME[material]
    names = ", ".join(_BY_NAME)
    guess = meant(material, _BY_NAME)
    raise RoomError([f"There is no heat limit for '{material}': {guess}the limits are of {names}."])
