"""Chemical equilibrium of flame gas: least free energy for given elements.

Newton's method on element potentials, amount of gas and temperature, as ``nasa-rp1311``
derives it, on many mixtures at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.physics.formula import Validity
from wickwright.physics.species import (
    ATOMS,
    MOLAR_GAS_CONSTANT,
    SPECIES,
    STANDARD_PRESSURE,
    enthalpy,
    free_energy,
    heat_capacity,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

__all__ = ["EQUILIBRIUM_RANGE", "Equilibrium", "at_enthalpy", "at_temperature"]

EQUILIBRIUM_RANGE = Validity("at_temperature", "temperature", "K", 1000.0, 3000.0, "assumption")
"""Where the gases of the table are the ones that matter; below it burn completely."""

_STEPS = 60
_CLOSE = 1e-11  # largest change of an amount, as a share of all gas
_TRACE = -18.420681  # ln of 1e-8: below this share a gas is a trace
_RAISED = -9.2103404  # ln of 1e-4: no trace may jump above this share in one step
_ROWS = len(ATOMS.T)


@dataclass(slots=True)
class Equilibrium:
    """Mixtures at equilibrium; every array has the mixtures as first axis.

    Attributes
    ----------
    temperature : array
        Temperature [K].
    moles : array
        Amount of each gas, in the order of ``SPECIES`` [mol].
    reached : array of bool
        Whether the iteration settled.
    """

    temperature: Floats
    moles: Floats
    reached: NDArray[np.bool_]


@dataclass(slots=True)
class _State:
    """What the iteration changes."""

    log_moles: Floats
    log_total: Floats
    log_temperature: Floats


@dataclass(frozen=True, slots=True)
class _Task:
    """What it must meet: elements [mol], ln of pressure [-], enthalpy over R [K mol]."""

    elements: Floats
    log_pressure: Floats
    enthalpy: Floats | None


def _start(elements: Floats, temperature: Floats) -> _State:
    """Begin with the same amount of every gas, as the source does."""
    total = elements.sum(axis=1) / 2.0
    each = np.log(total / len(SPECIES))
    return _State(
        np.repeat(each[:, None], len(SPECIES), axis=1), np.log(total), np.log(temperature)
    )


def _system(task: _Task, state: _State) -> tuple[Floats, Floats, Floats, Floats]:
    """Build the reduced Newton equations 2.24 to 2.27 of the source.

    Returns the rows (mixture, unknown, species), the potentials, the matrix and the right
    side; the unknowns are element potentials, ln of the amount of gas, ln of temperature.
    """
    moles, total = np.exp(state.log_moles), np.exp(state.log_total)
    temperature = np.exp(state.log_temperature)
    heat = enthalpy(temperature)
    share = state.log_moles - state.log_total[:, None]
    potential = free_energy(temperature) + share + task.log_pressure[:, None]
    ones = np.ones((len(moles), 1, len(SPECIES)))
    atoms = np.broadcast_to(ATOMS.T, (len(moles), _ROWS, len(SPECIES)))
    rows = np.concatenate((atoms, ones, heat[:, None, :]), axis=1)
    weighted = rows * moles[:, None, :]
    matrix = weighted @ rows.transpose(0, 2, 1)
    right = (weighted @ potential[:, :, None])[:, :, 0]
    right[:, :_ROWS] += task.elements - moles @ ATOMS
    right[:, _ROWS] += total - moles.sum(axis=1)
    matrix[:, _ROWS, _ROWS] -= total
    matrix[:, -1, -1] += (moles * heat_capacity(temperature)).sum(axis=1)
    if task.enthalpy is not None:
        right[:, -1] += task.enthalpy / temperature - (moles * heat).sum(axis=1)
    return rows, potential, matrix, right


def _solve(task: _Task, matrix: Floats, right: Floats) -> Floats:
    """Solve for the unknowns; the temperature stays where it is given."""
    unknown = np.zeros_like(right)
    keep = slice(None) if task.enthalpy is not None else slice(-1)
    solved = np.linalg.solve(matrix[:, keep, keep], right[:, keep, None])
    unknown[:, keep] = solved[:, :, 0]
    return unknown


def _damping(state: _State, change: Floats, total: Floats, warmth: Floats) -> Floats:
    """Shorten the step: equations 3.1 to 3.3 of the source."""
    share = state.log_moles - state.log_total[:, None]
    trace = share <= _TRACE
    largest = np.maximum(5.0 * np.maximum(np.abs(total), np.abs(warmth)), 1e-30)
    largest = np.maximum(largest, np.max(np.where(trace, 0.0, np.abs(change)), axis=1))
    climb = change - total[:, None]
    rising = trace & (change >= 0.0) & (climb > 0.0)
    room = np.where(rising, (_RAISED - share) / np.where(rising, climb, 1.0), np.inf)
    step: Floats = np.minimum(np.minimum(1.0, 2.0 / largest), np.min(np.abs(room), axis=1))
    return step


def _advance(task: _Task, state: _State) -> NDArray[np.bool_]:
    """Take one step; tell which mixtures have settled."""
    rows, potential, matrix, right = _system(task, state)
    unknown = _solve(task, matrix, right)
    change = (unknown[:, None, :] @ rows)[:, 0, :] - potential
    step = _damping(state, change, unknown[:, _ROWS], unknown[:, -1])
    state.log_moles += step[:, None] * change
    state.log_total += step * unknown[:, _ROWS]
    state.log_temperature += step * unknown[:, -1]
    share = np.exp(state.log_moles - state.log_total[:, None])
    still = np.max(share * np.abs(change), axis=1) + np.abs(unknown[:, -1])
    settled: NDArray[np.bool_] = (step >= 1.0) & (still < _CLOSE)
    return settled


def _run(task: _Task, state: _State) -> Equilibrium:
    settled = np.zeros(len(task.elements), dtype=np.bool_)
    for _ in range(_STEPS):
        settled = _advance(task, state)
        if settled.all():
            break
    return Equilibrium(np.exp(state.log_temperature), np.exp(state.log_moles), settled)


def at_enthalpy(elements: Floats, pressure: Floats, heat: Floats, guess: float) -> Equilibrium:
    """Return the equilibrium of insulated mixtures: adiabatic, at constant pressure.

    Parameters
    ----------
    elements : array
        Amount of each element [mol], (mixtures, elements), in the order of ``ELEMENTS``.
    pressure : array
        Pressure [Pa], (mixtures,).
    heat : array
        Enthalpy, formation included [J], (mixtures,).
    guess : float
        Temperature to begin with [K].

    Returns
    -------
    Equilibrium
        Temperature and amounts.

    Notes
    -----
    Equations 2.24 to 2.27 and 3.1 to 3.3 of ``nasa-rp1311``, gases only: no soot.
    """
    task = _Task(elements, np.log(pressure / STANDARD_PRESSURE), heat / MOLAR_GAS_CONSTANT)
    return _run(task, _start(elements, np.full(len(elements), guess)))


def at_temperature(elements: Floats, pressure: Floats, temperature: Floats) -> Equilibrium:
    """Return the equilibrium of mixtures held at a temperature.

    Parameters
    ----------
    elements : array
        Amount of each element [mol], (mixtures, elements), in the order of ``ELEMENTS``.
    pressure : array
        Pressure [Pa], (mixtures,).
    temperature : array
        Temperature [K], (mixtures,).

    Returns
    -------
    Equilibrium
        Amounts, at that temperature.

    Notes
    -----
    Equations 2.24 to 2.26 of ``nasa-rp1311``, gases only; range ``EQUILIBRIUM_RANGE``.
    """
    task = _Task(elements, np.log(pressure / STANDARD_PRESSURE), None)
    return _run(task, _start(elements, temperature))
