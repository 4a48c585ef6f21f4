"""Draft of a heated column and what holds it back.

Losses are counted in velocity heads: loss = K G**2/(2 rho A**2) for a mass flow G through an
area A.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from wickwright.physics.air import GAS_CONSTANT, GRAVITY
from wickwright.physics.formula import Real, Validity, power

__all__ = [
    "DRAFT_RANGES",
    "EXIT_LOSS",
    "SHARP_ENTRANCE_LOSS",
    "annulus_friction",
    "annulus_loss",
    "development_length",
    "draft",
    "heated_column_flow",
    "opening_flow",
    "pipe_loss",
    "reynolds",
    "rounded_entrance",
    "short_annulus_loss",
    "short_pipe_loss",
    "sudden_contraction",
    "sudden_expansion",
    "velocity_loss",
]

SHARP_ENTRANCE_LOSS: Final = 0.5
"""Square-edged entrance, flush with a wall, K [-]; ``crane410``. Others print 0.51 to 0.57."""
EXIT_LOSS: Final = 1.0
"""Discharge into still gas, K [-]: the whole velocity head is lost."""
DRAFT_RANGES = (
    Validity("pipe_loss", "Reynolds number", "-", 0.0, 2300.0, "shah-london1978"),
    Validity("annulus_loss", "Reynolds number", "-", 0.0, 2300.0, "shah-london1978"),
    Validity("annulus_friction", "ratio", "-", 1e-6, 0.999, "shah-london1978"),
    Validity("short_annulus_loss", "inner / outer", "-", 0.05, 1.0, "shah1978"),
    Validity("rounded_entrance", "ratio", "-", 0.0, 1.0, "rennels2012"),
)
"""Ranges of this module's formulas."""

_PIPE_ENTRY = (1.25, 0.000212)
_ANNULUS_RATIO = (0.05, 0.10, 0.50, 0.75, 1.00)
_ANNULUS_HEAD = (0.830, 0.784, 0.688, 0.678, 0.674)
_ANNULUS_TAIL = (5.0e-5, 4.3e-5, 3.2e-5, 3.0e-5, 2.9e-5)


def draft(height: Real, pressure: Real, outside: Real, inside: Real) -> Real:
    """Return the draft of a column of gas hotter than the air beside it.

    Parameters
    ----------
    height : float or array
        Height of the column [m].
    pressure : float or array
        Air pressure at the place [Pa].
    outside : float or array
        Temperature of the air beside the column [K].
    inside : float or array
        Mean temperature in the column [K]; the mean of 1/T, strictly.

    Returns
    -------
    float or array
        Pressure difference that drives the flow [Pa]; below zero for a cold column.

    Notes
    -----
    g H p/R (1/To - 1/Ti), ``draft``: proportional to height and to air pressure. The gas is
    taken to have the molar mass of air; burnt kerosene
    with 30 % excess air is 0.05 % lighter.
    """
    return GRAVITY / GAS_CONSTANT * pressure * height * (1.0 / outside - 1.0 / inside)


def velocity_loss(loss: Real, flow: Real, area: Real, density: Real) -> Real:
    """Return the pressure lost in velocity heads.

    Parameters
    ----------
    loss : float or array
        Loss coefficient K, the sum for the path [-].
    flow : float or array
        Mass flow [kg/s].
    area : float or array
        Area that K refers to [m2].
    density : float or array
        Density there [kg/m3].

    Returns
    -------
    float or array
        Pressure loss [Pa].

    Notes
    -----
    K G**2/(2 rho A**2), by definition of K (``crane410``).
    """
    return loss * flow**2 / (2.0 * density * area**2)


def opening_flow(coefficient: Real, area: Real, height: Real, inside: Real, outside: Real) -> Real:
    """Return the volume flow that a warm column draws through an opening.

    Parameters
    ----------
    coefficient : float or array
        Discharge coefficient [-], 0.65 to 0.70 for a plain opening.
    area : float or array
        Area of the opening [m2].
    height : float or array
        Height from the opening to the neutral level [m].
    inside : float or array
        Temperature of the warm side, at least ``outside`` [K].
    outside : float or array
        Temperature of the cold side [K].

    Returns
    -------
    float or array
        Volume flow of the cold air [m3/s].

    Notes
    -----
    Q = C A sqrt(2 g H (Ti - To)/Ti), ``ashrae-chimney``.
    """
    head = 2.0 * GRAVITY * height * (inside - outside) / inside
    return coefficient * area * power(head, 0.5)


def heated_column_flow(
    *,
    height: Real,
    area: Real,
    loss: Real,
    heat: Real,
    capacity: Real,
    pressure: Real,
    outside: Real,
) -> Real:
    """Return the mass flow at which draft and loss balance for a given heat.

    Parameters
    ----------
    height : float or array
        Height of the column [m].
    area : float or array
        Area that ``loss`` refers to [m2].
    loss : float or array
        Loss coefficient of the whole path [-], on the density of the outside air.
    heat : float or array
        Heat given to the gas at the foot of the column [W], above zero.
    capacity : float or array
        Specific heat capacity of the gas [J/(kg K)].
    pressure : float or array
        Air pressure at the place [Pa].
    outside : float or array
        Temperature of the air [K].

    Returns
    -------
    float or array
        Mass flow [kg/s].

    Notes
    -----
    With Ti = To + Q/(G c) in :func:`draft`, the balance is the cubic
    c' G**2 (To G + Q/c) = g H rho Q/c with c' = K/(2 A**2 rho), which has one positive root.
    Newton's method from above it falls steadily to it.
    """
    density = pressure / (GAS_CONSTANT * outside)
    warmth = heat / capacity
    drag = loss / (2.0 * area**2 * density)
    push = GRAVITY * height * density * warmth
    flow = power(push / drag / outside, 1.0 / 3.0)
    for _ in range(30):
        excess = drag * flow**2 * (outside * flow + warmth) - push
        flow = flow - excess / (drag * flow * (3.0 * outside * flow + 2.0 * warmth))
    return flow


def reynolds(flow: Real, diameter: Real, area: Real, viscosity: Real) -> Real:
    """Return the Reynolds number of a duct.

    Parameters
    ----------
    flow : float or array
        Mass flow [kg/s].
    diameter : float or array
        Hydraulic diameter, four areas over the wetted perimeter [m].
    area : float or array
        Area of the duct [m2].
    viscosity : float or array
        Dynamic viscosity [Pa s].

    Returns
    -------
    float or array
        Reynolds number [-].
    """
    return flow * diameter / (area * viscosity)


def development_length(diameter: Real, number: Real) -> Real:
    """Return the length in which laminar flow takes its final profile.

    Parameters
    ----------
    diameter : float or array
        Hydraulic diameter [m].
    number : float or array
        Reynolds number [-].

    Returns
    -------
    float or array
        Length [m].

    Notes
    -----
    0.06 Re D, ``entry-length``, from memory. Shorter ducts lose more than developed flow
    would: take :func:`short_pipe_loss` or :func:`short_annulus_loss`.
    """
    return 0.06 * number * diameter


def pipe_loss(viscosity: Real, length: Real, diameter: Real, flow: Real) -> Real:
    """Return the friction loss of developed laminar flow in a round pipe.

    Parameters
    ----------
    viscosity : float or array
        Dynamic viscosity [Pa s].
    length : float or array
        Length [m].
    diameter : float or array
        Inside diameter [m].
    flow : float or array
        Volume flow [m3/s].

    Returns
    -------
    float or array
        Pressure loss [Pa].

    Notes
    -----
    Hagen and Poiseuille: 128 mu L Q/(pi D**4), ``shah-london1978``.
    """
    return 128.0 * viscosity * length * flow / (np.pi * diameter**4)


def annulus_friction(ratio: Real) -> Real:
    """Return the friction factor of developed laminar flow in a concentric annulus.

    Parameters
    ----------
    ratio : float or array
        Inner over outer radius [-], above 0 and below 1.

    Returns
    -------
    float or array
        Darcy friction factor times Reynolds number on the hydraulic diameter [-]: 64 for a
        vanishing core, 96 for a narrow gap.

    Notes
    -----
    64 (1 - r)**2/(1 + r**2 + (1 - r**2)/ln r), ``shah-london1978``.
    """
    bracket: Real = 1.0 + ratio**2 + (1.0 - ratio**2) / np.log(ratio)
    return 64.0 * (1.0 - ratio) ** 2 / bracket


def annulus_loss(viscosity: Real, length: Real, inner: Real, outer: Real, flow: Real) -> Real:
    """Return the friction loss of developed laminar flow in a concentric annulus.

    Parameters
    ----------
    viscosity : float or array
        Dynamic viscosity [Pa s].
    length : float or array
        Length [m].
    inner, outer : float or array
        Radii [m].
    flow : float or array
        Volume flow [m3/s].

    Returns
    -------
    float or array
        Pressure loss [Pa].

    Notes
    -----
    8 mu L Q/(pi (ro**4 - ri**4 - (ro**2 - ri**2)**2/ln(ro/ri))), ``shah-london1978``.
    """
    core: Real = (outer**2 - inner**2) ** 2 / np.log(outer / inner)
    return 8.0 * viscosity * length * flow / (np.pi * (outer**4 - inner**4 - core))


def _apparent_friction(reach: Real, developed: Real, head: Real, tail: Real) -> Real:
    """Darcy f Re averaged from the entrance; ``reach`` is L/(D Re)."""
    entry = 3.44 / power(reach, 0.5)
    rest = developed / 4.0 + head / (4.0 * reach) - entry
    return 4.0 * (entry + rest / (1.0 + tail / reach**2))


def short_pipe_loss(
    viscosity: Real, density: Real, length: Real, diameter: Real, flow: Real
) -> Real:
    """Return the friction loss of laminar flow in a round pipe, its entry included.

    Parameters
    ----------
    viscosity : float or array
        Dynamic viscosity [Pa s].
    density : float or array
        Density [kg/m3].
    length : float or array
        Length from a smooth entrance [m].
    diameter : float or array
        Inside diameter [m].
    flow : float or array
        Volume flow [m3/s], above zero.

    Returns
    -------
    float or array
        Pressure loss, the speeding up of the core included [Pa].

    Notes
    -----
    ``shah1978``, within 2.4 % by its abstract; constants from memory. The
    default for a duct shorter than :func:`development_length`.
    """
    reach: Real = length * viscosity * np.pi / (4.0 * density * flow)
    still = 0.0 * reach
    head, tail = _PIPE_ENTRY
    factor = _apparent_friction(reach, 64.0 + still, head + still, tail + still)
    return factor / 64.0 * pipe_loss(viscosity, length, diameter, flow)


def short_annulus_loss(
    *, viscosity: Real, density: Real, length: Real, inner: Real, outer: Real, flow: Real
) -> Real:
    """Return the friction loss of laminar flow in an annulus, its entry included.

    Parameters
    ----------
    viscosity : float or array
        Dynamic viscosity [Pa s].
    density : float or array
        Density [kg/m3].
    length : float or array
        Length from a smooth entrance [m].
    inner, outer : float or array
        Radii [m].
    flow : float or array
        Volume flow [m3/s], above zero.

    Returns
    -------
    float or array
        Pressure loss, the speeding up of the core included [Pa].

    Notes
    -----
    ``shah1978``, its constants (from memory) interpolated between the radius
    ratios it tabulates.
    """
    ratio = inner / outer
    reach: Real = (
        length * viscosity * np.pi * (outer + inner) / (4.0 * density * flow * (outer - inner))
    )
    head: Real = np.interp(ratio, _ANNULUS_RATIO, _ANNULUS_HEAD)
    tail: Real = np.interp(ratio, _ANNULUS_RATIO, _ANNULUS_TAIL)
    developed = annulus_friction(ratio)
    factor = _apparent_friction(reach, developed, head, tail) / developed
    return factor * annulus_loss(viscosity, length, inner, outer, flow)


def sudden_expansion(ratio: Real) -> Real:
    """Return the loss coefficient where a duct widens at once.

    Parameters
    ----------
    ratio : float or array
        Small over large diameter [-].

    Returns
    -------
    float or array
        K on the velocity in the small duct [-].

    Notes
    -----
    Borda and Carnot: (1 - beta**2)**2, ``crane410``.
    """
    return (1.0 - ratio**2) ** 2


def _jet_loss(squeeze: Real, jet: Real) -> Real:
    """Loss of a jet that contracts by ``jet`` and spreads again."""
    return 0.0696 * squeeze * jet**2 + (jet - 1.0) ** 2


def sudden_contraction(ratio: Real) -> Real:
    """Return the loss coefficient where a duct narrows at once.

    Parameters
    ----------
    ratio : float or array
        Small over large diameter [-].

    Returns
    -------
    float or array
        K on the velocity in the small duct [-].

    Notes
    -----
    ``rennels2012``.
    """
    jet = 1.0 + 0.622 * (1.0 - 0.215 * ratio**2 - 0.785 * ratio**5)
    return _jet_loss(1.0 - ratio**5, jet)


def rounded_entrance(ratio: Real) -> Real:
    """Return the loss coefficient of a rounded entrance, flush with a wall.

    Parameters
    ----------
    ratio : float or array
        Radius of the rounding over diameter of the duct [-], 0 to 1.

    Returns
    -------
    float or array
        K on the velocity in the duct [-].

    Notes
    -----
    ``rennels2012``, which gives 0.57 for a sharp edge where ``crane410``
    gives 0.5.
    """
    jet = 1.0 + 0.622 * (1.0 - 0.30 * power(ratio, 0.5) - 0.70 * ratio) ** 4
    return _jet_loss(1.0 - 0.569 * ratio, jet)
