"""How the sizes of parts change with heat."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches

__all__ = ["EXPANSIONS", "REFERENCE", "STRANGE", "Expansion", "expansion_of", "grown"]

REFERENCE = 293.15
"""Temperature at which sizes are stated [K]: 20 °C, ISO 1 (from memory, not seen)."""


@dataclass(frozen=True, slots=True)
class Expansion:
    """Linear expansion of a material near room temperature.

    Attributes
    ----------
    low, usual, high : float
        Least, usual and greatest coefficient met with [1/K].
    source : str
        Key of the bibliography.
    """

    low: float
    usual: float
    high: float
    source: str

    def at(self, rise: float) -> tuple[float, float, float]:
        """Return least, usual and greatest growth per size for a rise of temperature [K]."""
        if rise < 0.0:
            return self.high * rise, self.usual * rise, self.low * rise
        return self.low * rise, self.usual * rise, self.high * rise


_BRASS = Expansion(18.7e-6, 19.0e-6, 20.0e-6, "expansion")

EXPANSIONS: dict[str, Expansion | None] = {
    "brass": _BRASS,
    "nickel-brass": _BRASS,  # plated brass grows as brass
    "steel": Expansion(11.7e-6, 12.0e-6, 12.3e-6, "expansion"),
    "cast-iron": Expansion(10.0e-6, 10.8e-6, 12.0e-6, "expansion"),
    "aluminium": Expansion(22.5e-6, 23.1e-6, 24.0e-6, "expansion"),
    "glass": Expansion(3.2e-6, 3.3e-6, 3.4e-6, "iso3585"),
    "soda-glass": Expansion(8.5e-6, 9.1e-6, 9.5e-6, "expansion"),
    "porcelain": Expansion(4.0e-6, 5.5e-6, 7.0e-6, "expansion"),
    "cotton": None,
    "oxide": Expansion(7.5e-6, 9.5e-6, 12.5e-6, "expansion"),
    "cloth": None,
    "parchment": None,
    "wood": None,
}
"""Linear expansion by material of the book.

None stands where heat hardly decides the size: fabrics yield, and wood moves more with damp.
Borosilicate glass 3.3e-6 over 20 to 300 °C is ISO 3585 (key ``iso3585``); the band around it
and all other values are handbook values from memory, not seen (key ``expansion``).
"""

STRANGE = Expansion(0.0, 12.0e-6, 24.0e-6, "assumption")
"""Band for a material that is blank or not in the table: from none to aluminium's greatest."""

_STILL = Expansion(0.0, 0.0, 0.0, "assumption")


def expansion_of(material: str) -> Expansion:
    """Return the expansion to reckon with.

    Parameters
    ----------
    material : str
        A material of the book; blank or unknown gives :data:`STRANGE`.

    Returns
    -------
    Expansion
        Zero for fabrics and wood.
    """
    found = EXPANSIONS.get(material, STRANGE)
    return _STILL if found is None else found


def grown(size: float, material: str, temperature: float) -> float:
    """Return a size at a temperature.

    Parameters
    ----------
    size : float
        Size at 20 °C [m].
    material : str
        A material of the book.
    temperature : float
        Temperature of the part [K].

    Returns
    -------
    float
        ``size * (1 + a * (temperature - 293.15))`` with the usual coefficient [m]; fabrics and
        wood keep their size.

    Raises
    ------
    ValueError
        When the table does not know the material.

    Notes
    -----
    Source keys ``iso3585`` and ``expansion``. One coefficient serves the whole span, which is
    close enough from 0 to 300 °C.
    """
    if material not in EXPANSIONS:
        near = get_close_matches(material, EXPANSIONS, 1)
        hint = f"did you mean '{near[0]}'?" if near else f"known are {', '.join(EXPANSIONS)}"
        msg = f"'{material}' is not a material whose growth with heat is known: {hint}"
        raise ValueError(msg)
    return size * (1.0 + expansion_of(material).usual * (temperature - REFERENCE))
