"""The flames of one lamp or of a million, in one call."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import partial
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.balance import run
from wickwright.burn.burnt_gas import NEEDED_AIR
from wickwright.burn.glow import far_share, luminous
from wickwright.burn.outside import outside_coefficient
from wickwright.burn.parts import Lamps, leaves, with_leaf
from wickwright.burn.ready import CELLS, ready
from wickwright.physics.radiation import STEFAN_BOLTZMANN

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wickwright.burn.balance import Burning, Running
    from wickwright.burn.ready import Ready

    Floats = NDArray[np.float64]
    Slices = tuple[slice, ...]

__all__ = ["PASSES", "Flames", "along", "solve"]

PASSES: Final = 9
"""Least number of passes of the balance: more are made where the air flow still changes."""
_CHUNK: Final = 16384
"""Lamp states solved together: few enough that they stay close to the processor."""


@dataclass(frozen=True, slots=True)
class Flames:
    """What burns, for every lamp state asked for: floats, or arrays of the shape of the lamps.

    Attributes
    ----------
    air_flow, fuel : float or array
        Air drawn and fuel burnt [kg/s].
    air_ratio : float or array
        Air drawn over air needed [-].
    margin : float or array
        Air ratio over the least clean one, less 1 [-]: below zero carbon is likely.
    draft : float or array
        Pressure of the hot column [Pa].
    heat : float or array
        Heat set free [W].
    flame, mantle : float or array
        Temperature of the flame where it meets the mantle, and of the mantle [K].
    gas : float or array
        Of the mixed gas above the mantle [K].
    gas_neck, gas_middle, exit_temperature : float or array
        Of the gas at the end of the foot, halfway up the body, and at the top [K].
    glass_foot, glass_lower, glass_upper : float or array
        Of the glass round the flame and of the two halves of the body [K].
    exit_speed : float or array
        Of the gas at the top [m/s].
    light : float or array
        Luminous flux outside the glass [lm].
    glow : float or array
        Power that the mantle, or the flame itself, radiates [W].
    glass_loss, glow_out, exit_heat : float or array
        Heat that leaves through the glass as heat, through it as glow, and at the top above
        the room's [W]. Together they are ``heat``.
    flux_foot : float or array
        Heat through the glass of the foot [W/m2].
    settled : float or array
        Last change of the air flow over it [-].
    """

    air_flow: float | Floats
    fuel: float | Floats
    air_ratio: float | Floats
    margin: float | Floats
    draft: float | Floats
    heat: float | Floats
    flame: float | Floats
    mantle: float | Floats
    gas: float | Floats
    gas_neck: float | Floats
    gas_middle: float | Floats
    exit_temperature: float | Floats
    glass_foot: float | Floats
    glass_lower: float | Floats
    glass_upper: float | Floats
    exit_speed: float | Floats
    light: float | Floats
    glow: float | Floats
    glass_loss: float | Floats
    glow_out: float | Floats
    exit_heat: float | Floats
    flux_foot: float | Floats
    settled: float | Floats


def _light(r: Ready, s: Running, heat: Floats) -> Floats:
    mantle, wick = r.lamps.mantle, r.lamps.wick
    web = mantle.area * luminous(s.mantle, np.asarray(mantle.visible), np.asarray(mantle.infrared))
    return np.asarray((web + wick.efficacy * heat) * r.lamps.model.transmission)


def _losses(r: Ready, s: Running) -> list[Floats]:
    """Return the heat each cell of the glass gives to the room [W]."""
    room, tube = r.air.temperature, r.tube
    mean = sum(n * g for n, g in zip(tube.lengths, s.glass, strict=True)) / tube.height
    outside = outside_coefficient(
        np.asarray(mean), room, r.air.density * room, tube.height, tube.slenderness
    )
    shine = r.lamps.model.glass_emissivity * STEFAN_BOLTZMANN
    return [
        np.asarray(area * (outside * (glass - room) + shine * (glass**4 - room**4)))
        for area, glass in zip(tube.outer, s.glass, strict=True)
    ]


def _results(r: Ready, flow: Floats, s: Running, b: Burning, wrong: Floats) -> Flames:
    heat = r.lamps.model.heating_value * b.burnt * b.fuel
    bare = r.lamps.wick.radiant * heat
    stopped = s.glow * far_share(s.mantle) + bare * r.lamps.model.soot_far_share
    losses = _losses(r, s)
    brought = b.thermal * NEEDED_AIR * r.air.warm
    top = s.gas[CELLS]
    thin = r.air.density * r.air.temperature * r.tube.body_area
    return Flames(
        air_flow=flow,
        fuel=b.fuel,
        air_ratio=b.ratio,
        margin=b.ratio / r.lamps.wick.least_air - 1.0,
        draft=s.draft,
        heat=heat,
        flame=s.flame,
        mantle=s.mantle,
        gas=s.gas[0],
        gas_neck=s.gas[1],
        gas_middle=s.gas[2],
        exit_temperature=top,
        glass_foot=s.glass[0],
        glass_lower=s.glass[1],
        glass_upper=s.glass[2],
        exit_speed=(flow + b.fuel) * top / thin,
        light=_light(r, s, heat),
        glow=s.glow + bare,
        glass_loss=losses[0] + losses[1] + losses[2],
        glow_out=s.glow + bare - stopped,
        exit_heat=b.fuel * (b.content(top) - brought),
        flux_foot=losses[0] / r.tube.outer[0],
        settled=wrong,
    )


def _whole(shape: tuple[int, ...]) -> list[Slices]:
    """Cut a shape into chunks, along its first axes first."""
    if int(np.prod(shape, dtype=np.int64)) <= _CHUNK:
        return [tuple(slice(0, n) for n in shape)]
    rest = int(np.prod(shape[1:], dtype=np.int64))
    if rest > _CHUNK:
        tails = _whole(shape[1:])
        return [(slice(at, at + 1), *tail) for at in range(shape[0]) for tail in tails]
    step = max(1, _CHUNK // rest)
    whole = tuple(slice(0, n) for n in shape[1:])
    return [(slice(at, min(at + step, shape[0])), *whole) for at in range(0, shape[0], step)]


def _cut(values: float | Floats, chunk: Slices) -> Floats:
    """Return the part of a broadcasting array that a chunk needs, its axes of one kept."""
    array = np.asarray(values, dtype=np.float64)
    own = chunk[len(chunk) - array.ndim :]
    at = tuple(one if n > 1 else slice(0, 1) for one, n in zip(own, array.shape, strict=True))
    return array[at]


def _solve_chunk(lamps: Lamps, out: dict[str, Floats], passes: int, chunk: Slices) -> None:
    part = lamps
    for name, value in leaves(lamps):
        part = with_leaf(part, name, _cut(value, chunk))
    r = ready(part)
    shape = tuple(one.stop - one.start for one in chunk)
    found = _results(r, *run(r, shape, passes))
    for name, values in out.items():
        values[chunk] = getattr(found, name)


def solve(lamps: Lamps, *, workers: int = 1, passes: int = PASSES) -> Flames:
    """Return the flames of lamps.

    Parameters
    ----------
    lamps : Lamps
        One state or many: the arrays broadcast. Not checked: see
        :func:`wickwright.burn.checks.checked`.
    workers : int
        Threads to use.
    passes : int
        Least number of passes of the balance.

    Returns
    -------
    Flames
        Floats for floats, arrays for arrays.
    """
    shape = np.broadcast_shapes(*(np.shape(value) for _, value in leaves(lamps)))
    out = {one.name: np.empty(shape) for one in fields(Flames)}
    chunks = _whole(shape)
    work = partial(_solve_chunk, lamps, out, passes)
    if workers > 1 and len(chunks) > 1:
        from concurrent.futures import ThreadPoolExecutor  # noqa: PLC0415 - slow to load

        with ThreadPoolExecutor(workers) as pool:
            list(pool.map(work, chunks))
    else:
        for chunk in chunks:
            work(chunk)
    return Flames(**{n: v if shape else float(v) for n, v in out.items()})


def along(flames: Flames, lamps: Lamps, share: float | Floats) -> tuple[Floats, Floats]:
    """Return the temperatures of gas and glass at a height of the chimney.

    Parameters
    ----------
    flames : Flames
        As solved.
    lamps : Lamps
        What they were solved for.
    share : float or array
        Height over that of the chimney [-], 0 to 1; an array broadcasts against the flames.

    Returns
    -------
    tuple of array
        Gas and glass [K]; between the heights solved for, the gas falls as an exponential
        does in a length of even glass.
    """
    foot = np.asarray(lamps.chimney.foot_length) / lamps.chimney.height
    half = 0.5 * (1.0 - foot)
    starts = (0.0 * foot, foot, foot + half)
    gases = (flames.gas, flames.gas_neck, flames.gas_middle, flames.exit_temperature)
    glasses = (flames.glass_foot, flames.glass_lower, flames.glass_upper)
    gas, glass = np.asarray(gases[0]) + 0.0 * foot, np.asarray(glasses[0]) + 0.0 * foot
    for cell, (start, length) in enumerate(zip(starts, (foot, half, half), strict=True)):
        here = share >= start
        part = np.clip((share - start) / length, 0.0, 1.0)
        fall = (gases[cell + 1] - glasses[cell]) / (gases[cell] - glasses[cell])
        gas = np.where(here, glasses[cell] + (gases[cell] - glasses[cell]) * fall**part, gas)
        glass = np.where(here, glasses[cell], glass)
    return np.asarray(gas), np.asarray(glass)
