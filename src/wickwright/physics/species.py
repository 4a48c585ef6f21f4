"""The gases of a hydrocarbon flame in air, and their heat and free energy.

The numbers are the seven-term polynomials of ``nasa-tm4513``, read from the file
``nasa_gas.yaml`` that ``cantera`` distributes: below and above 1000 K, for a standard
pressure of 1 bar and the elements at 298.15 K as zero of enthalpy.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.physics.formula import Validity

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = [
    "ATOMIC_MASS",
    "ATOMS",
    "ELEMENTS",
    "MOLAR_GAS_CONSTANT",
    "MOLAR_MASS",
    "POLYNOMIAL_RANGE",
    "SPECIES",
    "STANDARD_PRESSURE",
    "Species",
    "enthalpy",
    "free_energy",
    "heat_capacity",
    "index",
]

MOLAR_GAS_CONSTANT = 8.31446261815324
"""Molar gas constant [J/(mol K)]; ``codata2018``."""
STANDARD_PRESSURE = 1e5
"""Pressure of the tabulated free energies [Pa]; ``nasa-tm4513``."""
POLYNOMIAL_RANGE = Validity("enthalpy", "temperature", "K", 200.0, 6000.0, "nasa-tm4513")
"""Range of the polynomials."""

ELEMENTS = ("C", "H", "O", "N", "Ar")
"""Order of the columns of :data:`ATOMS`."""
ATOMIC_MASS = np.array([12.011, 1.008, 15.999, 14.007, 39.95]) * 1e-3
"""Standard atomic weights, abridged [kg/mol], in the order of :data:`ELEMENTS`."""
_BREAK = 1000.0


@dataclass(frozen=True, slots=True)
class Species:
    """One gas.

    Attributes
    ----------
    name : str
        Its formula.
    atoms : tuple of int
        Atoms in a molecule, in the order of ``ELEMENTS``.
    low, high : tuple of float
        Seven coefficients below and above 1000 K.
    """

    name: str
    atoms: tuple[int, int, int, int, int]
    low: tuple[float, ...]
    high: tuple[float, ...]


# fmt: off
SPECIES = (
    Species("CO2", (1, 0, 2, 0, 0),
        (2.35677352, 0.00898459677, -7.12356269e-06, 2.45919022e-09,
         -1.43699548e-13, -48371.9697, 9.90105222),
        (4.63659493, 0.00274131991, -9.95828531e-07, 1.60373011e-10,
         -9.16103468e-15, -49024.9341, -1.93534855)),
    Species("H2O", (0, 2, 1, 0, 0),
        (4.19864056, -0.0020364341, 6.52040211e-06, -5.48797062e-09,
         1.77197817e-12, -30293.7267, -0.849032208),
        (2.67703787, 0.00297318329, -7.7376969e-07, 9.44336689e-11,
         -4.26900959e-15, -29885.8938, 6.88255571)),
    Species("N2", (0, 0, 0, 2, 0),
        (3.53100528, -0.000123660987, -5.02999437e-07, 2.43530612e-09,
         -1.40881235e-12, -1046.97628, 2.96747468),
        (2.95257626, 0.00139690057, -4.92631691e-07, 7.86010367e-11,
         -4.60755321e-15, -923.948645, 5.87189252)),
    Species("O2", (0, 0, 2, 0, 0),
        (3.78245636, -0.00299673415, 9.847302e-06, -9.68129508e-09,
         3.24372836e-12, -1063.94356, 3.65767573),
        (3.66096083, 0.000656365523, -1.41149485e-07, 2.05797658e-11,
         -1.29913248e-15, -1215.97725, 3.41536184)),
    Species("Ar", (0, 0, 0, 0, 1),
        (2.5, 0.0, 0.0, 0.0,
         0.0, -745.375, 4.37967491),
        (2.5, 0.0, 0.0, 0.0,
         0.0, -745.375, 4.37967491)),
    Species("CO", (1, 0, 1, 0, 0),
        (3.57953347, -0.00061035368, 1.01681433e-06, 9.07005884e-10,
         -9.04424499e-13, -14344.086, 3.50840928),
        (3.04848583, 0.00135172818, -4.85794075e-07, 7.88536486e-11,
         -4.69807489e-15, -14266.1171, 6.0170979)),
    Species("H2", (0, 2, 0, 0, 0),
        (2.34433112, 0.00798052075, -1.9478151e-05, 2.01572094e-08,
         -7.37611761e-12, -917.935173, 0.683010238),
        (2.93286579, 0.000826607967, -1.46402335e-07, 1.54100359e-11,
         -6.88804432e-16, -813.065597, -1.02432887)),
    Species("OH", (0, 1, 1, 0, 0),
        (3.99201543, -0.00240131752, 4.61793841e-06, -3.88113333e-09,
         1.3641147e-12, 3615.08056, -0.103925458),
        (2.83864607, 0.00110725586, -2.93914978e-07, 4.20524247e-11,
         -2.42169092e-15, 3943.95852, 5.84452662)),
    Species("H", (0, 1, 0, 0, 0),
        (2.5, 0.0, 0.0, 0.0,
         0.0, 25473.6599, -0.446682853),
        (2.50000286, -5.65334214e-09, 3.63251723e-12, -9.1994972e-16,
         7.95260746e-20, 25473.6589, -0.446698494)),
    Species("O", (0, 0, 1, 0, 0),
        (3.1682671, -0.00327931884, 6.64306396e-06, -6.12806624e-09,
         2.11265971e-12, 29122.2592, 2.05193346),
        (2.54363697, -2.73162486e-05, -4.1902952e-09, 4.95481845e-12,
         -4.79553694e-16, 29226.012, 4.92229457)),
    Species("NO", (0, 0, 1, 1, 0),
        (4.21859896, -0.00463988124, 1.10443049e-05, -9.34055507e-09,
         2.80554874e-12, 9845.09964, 2.28061001),
        (3.26071234, 0.00119101135, -4.29122646e-07, 6.94481463e-11,
         -4.03295681e-15, 9921.43132, 6.36900518)),
)
# fmt: on
"""The gases, majors first."""

_ORDER = {gas.name: place for place, gas in enumerate(SPECIES)}
ATOMS = np.array([gas.atoms for gas in SPECIES], dtype=np.float64)
"""Atoms by species (rows) and element (columns)."""
MOLAR_MASS = ATOMS @ ATOMIC_MASS
"""Molar mass of each species [kg/mol]."""
_LOW = np.array([gas.low for gas in SPECIES])
_HIGH = np.array([gas.high for gas in SPECIES])


def index(name: str) -> int:
    """Return the place of a gas in :data:`SPECIES`.

    Parameters
    ----------
    name : str
        Its formula, such as ``'CO2'``.

    Returns
    -------
    int
        Its place [-].

    Raises
    ------
    KeyError
        When the table does not hold it.
    """
    return _ORDER[name]


def _coefficients(temperature: Floats) -> tuple[Floats, Floats]:
    """Pick the branch; give coefficients (..., species, 7) and temperature (..., 1)."""
    hot = (temperature > _BREAK)[..., None, None]
    return np.where(hot, _HIGH, _LOW), temperature[..., None]


def heat_capacity(temperature: Floats) -> Floats:
    """Return the heat capacities of all gases.

    Parameters
    ----------
    temperature : array
        Temperature [K], of any shape.

    Returns
    -------
    array
        cp/R [-], one more axis for the species.

    Notes
    -----
    The polynomial of ``nasa-tm4513``.
    """
    a, t = _coefficients(temperature)
    c0, c1, c2, c3, c4 = (a[..., i] for i in range(5))
    return c0 + t * (c1 + t * (c2 + t * (c3 + t * c4)))


def enthalpy(temperature: Floats) -> Floats:
    """Return the enthalpies of all gases, formation included.

    Parameters
    ----------
    temperature : array
        Temperature [K], of any shape.

    Returns
    -------
    array
        H/(R T) [-], one more axis for the species.

    Notes
    -----
    The integrated polynomial of ``nasa-tm4513``.
    """
    a, t = _coefficients(temperature)
    c0, c1, c2, c3, c4, c5 = (a[..., i] for i in range(6))
    return c0 + t * (c1 / 2 + t * (c2 / 3 + t * (c3 / 4 + t * c4 / 5))) + c5 / t


def free_energy(temperature: Floats) -> Floats:
    """Return the Gibbs free energies of all gases at standard pressure.

    Parameters
    ----------
    temperature : array
        Temperature [K], of any shape.

    Returns
    -------
    array
        G/(R T) [-], one more axis for the species.

    Notes
    -----
    H/(R T) - S/R by the integrated polynomials of ``nasa-tm4513``.
    """
    a, t = _coefficients(temperature)
    c0, c1, c2, c3, c4, _, c6 = (a[..., i] for i in range(7))
    entropy = c0 * np.log(t) + t * (c1 + t * (c2 / 2 + t * (c3 / 3 + t * c4 / 4))) + c6
    return enthalpy(temperature) - entropy
