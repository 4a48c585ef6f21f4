"""How fast a million flames are found, and whether a root finder finds the same ones.

Usage: python benchmarks/flame.py [--states 100] [--workers 2]

One call solves an array of chimneys by elevations by settings. A sample of the states is solved
again one by one with ``scipy.optimize.brentq`` on the air flow; everything inside the flame
(mantle, gas, glass) is settled anew for each air flow it tries, from where the last one left it.
"""

from __future__ import annotations

import argparse
import time
from dataclasses import fields, replace
from typing import TYPE_CHECKING

import numpy as np
from scipy.optimize import brentq  # type: ignore[import-untyped]

from wickwright.burn.balance import Running, _pass, first_flow, started
from wickwright.burn.flames import Flames, solve
from wickwright.burn.parts import (
    FULLEST,
    Air,
    Chimney,
    Lamps,
    Mantle,
    Model,
    Passages,
    Wick,
    leaves,
    with_leaf,
)
from wickwright.burn.ready import Ready, ready
from wickwright.physics.air import pressure_at

if TYPE_CHECKING:
    from collections.abc import Sequence

_GRAM_AN_HOUR = 1e-3 / 3600.0
_SAME = 1e-8
_STEADY = 1e-13


def lamps(each: int) -> Lamps:
    """Return chimneys by elevations by settings, the last setting the fullest clean flame."""
    heights = np.linspace(0.25, 0.45, each)[:, None, None]
    pressures = pressure_at(np.linspace(0.0, 4000.0, each))[None, :, None]
    fuels = np.append(np.linspace(30.0, 95.0, each - 1) * _GRAM_AN_HOUR, FULLEST)[None, None, :]
    return Lamps(
        Passages(318e-6, 2.0, 190e6, 0.42),
        Wick(95.0 * _GRAM_AN_HOUR, 1.3),
        Mantle(48e-4, 0.50, 0.06, 2.0),
        Chimney(heights, 0.058, 0.09, 0.04, 0.002),
        Air(pressures),
        Model(),
        fuels,
    )


def _one(many: Lamps, place: tuple[int, ...]) -> Lamps:
    """Return one state of an array of them."""
    shape = np.broadcast_shapes(*(np.shape(value) for _, value in leaves(many)))
    for name, value in leaves(many):
        many = with_leaf(many, name, np.asarray(np.broadcast_to(value, shape)[place]))
    return many


def _off(r: Ready, s: Running, flow: float) -> float:
    """Return how far off an air flow is, once everything inside the flame has settled."""
    at, last = np.asarray(flow), np.inf
    while True:
        _, wrong = _pass(r, s, at, 1)
        if abs(float(wrong) - last) <= _STEADY * flow:
            return float(wrong)
        last = float(wrong)


def by_root(lamp: Lamps) -> float:
    """Return the air flow of one state by a bracketing root finder [kg/s]."""
    r = ready(lamp)
    guess = float(first_flow(r))
    s = started(r, np.asarray(guess))
    return float(
        brentq(lambda flow: _off(r, s, flow), 0.3 * guess, 2.0 * guess, xtol=1e-16, rtol=1e-11)
    )


def _timed(many: Lamps, workers: int) -> tuple[float, Flames]:
    solve(replace(many, fuel=FULLEST))  # makes the tables
    start = time.perf_counter()
    found = solve(many, workers=workers)
    return time.perf_counter() - start, found


def main(arguments: Sequence[str] | None = None) -> None:
    """Print states a second, the ratio to the root finder, and the greatest difference."""
    parser = argparse.ArgumentParser(description="Solve a million flames.")
    parser.add_argument("--states", type=int, default=100, help="states along each of three axes")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--sample", type=int, default=60, help="states solved one by one")
    parser.add_argument("--repeat", type=int, default=3)
    chosen = parser.parse_args(arguments)
    many = lamps(chosen.states)
    runs = [_timed(many, chosen.workers) for _ in range(chosen.repeat)]
    seconds, found = min(runs, key=lambda run: run[0])
    flow = np.asarray(found.air_flow)
    rng = np.random.default_rng(1)
    places = [tuple(int(i) for i in rng.integers(0, flow.shape)) for _ in range(chosen.sample)]
    start = time.perf_counter()
    roots = [by_root(_one(many, place)) for place in places]
    each = (time.perf_counter() - start) / len(places)
    worst = max(abs(root / flow[place] - 1.0) for root, place in zip(roots, places, strict=True))
    rate = flow.size / seconds
    print(f"{flow.size} states in {seconds:.2f} s: {rate:,.0f} states/s, {chosen.workers} threads")
    print(f"one by one with brentq: {1e3 * each:.1f} ms each, {rate * each:,.0f} times as long")
    print(f"greatest difference of air flow: {worst:.1e} (asked: {_SAME:.0e})")
    balance = np.abs(found.glass_loss + found.glow_out + found.exit_heat - found.heat)
    print(f"energy closes to {float(np.max(balance / found.heat)):.1e}")
    assert worst < _SAME, "the two ways differ"
    assert all(np.isfinite(getattr(found, one.name)).all() for one in fields(Flames))


if __name__ == "__main__":
    main()
