"""Bench readings into the burner's own figures, as far as the readings determine them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.assumptions import SAYS
from wickwright.burn.checks import LIMITS, BurnError
from wickwright.burn.flames import solve
from wickwright.burn.parts import FULLEST, Lamps, leaves, with_leaf
from wickwright.terms.finding import Kind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from wickwright.burn.lamp import BurningLamp, Input
    from wickwright.burn.readings import Reading

    Floats = NDArray[np.float64]

__all__ = ["FIT", "NOISE", "Calibration", "Fitted", "Held", "Residual", "calibrate", "calibrated"]

FIT: Final = ("passages.loss", "passages.laminar", "wick.limit", "mantle.exchange")
"""The numbers of a burner and its mantle that readings are fitted with."""
NOISE: Final = {"fuel": 0.02, "light": 0.06, "glass": 0.02}
"""Standard uncertainty of a reading, over the reading; of glass over its temperature in kelvin
[-]: ``assumption``, weighed again by how the fit scatters."""
DETERMINED: Final = 0.5
"""Greatest standard uncertainty of the logarithm of a figure that counts as determined [-]:
``assumption``; beyond, the figure is known to less than a factor of 1.6."""

_PARTNER = 0.15  # share of a direction that makes a figure one of those it mixes
_STEP = 1e-3
_ENOUGH = 5  # readings to spare from which the scatter itself is known
_NORMAL = 1.96  # 95 % of a normal distribution
_WORTH = 6.6  # fall of the sum of squares that one more figure brings by chance in 1 of 100
_KINDS = {"fuel": Kind.MASS_FLOW, "light": Kind.LIGHT, "glass": Kind.TEMPERATURE}
_WANTED = {
    "passages.loss": "readings with a chimney of another height",
    "passages.laminar": "readings with a chimney of another height",
    "wick.limit": "a reading with a chimney so tall that the wick gives out before the air",
    "mantle.exchange": "readings of the light at several settings of the wick",
}


@dataclass(frozen=True, slots=True)
class Fitted:
    """A figure the readings determine.

    Attributes
    ----------
    name, says : str
        Which, and in words.
    value, low, high : float
        Best value and the ends of its 95 % interval [SI unit of the number].
    before : float
        What the book or an assumption had [SI unit of the number].
    """

    name: str
    says: str
    value: float
    low: float
    high: float
    before: float


@dataclass(frozen=True, slots=True)
class Held:
    """A figure the readings do not determine; it was left as it was.

    Attributes
    ----------
    name, says : str
        Which, and in words.
    value : float
        As the book or an assumption has it [SI unit of the number].
    why : str
        Why it was not fitted, and what readings would determine it.
    """

    name: str
    says: str
    value: float
    why: str


@dataclass(frozen=True, slots=True)
class Residual:
    """One figure that was read, beside what the fit gives.

    Attributes
    ----------
    row : int
        Row of the table.
    what : str
        ``'fuel'``, ``'light'`` or ``'glass'``.
    measured, computed : float
        Both [SI unit of the kind].
    kind : Kind
        What is measured.
    """

    row: int
    what: str
    measured: float
    computed: float
    kind: Kind


@dataclass(frozen=True, slots=True)
class Calibration:
    """What the readings say about a burner.

    Attributes
    ----------
    burner : str
        Part number.
    fitted : tuple of Fitted
        In the order of :data:`FIT`.
    held : tuple of Held
        What they do not determine.
    residuals : tuple of Residual
        By row.
    scatter : float
        Scatter of the residuals over :data:`NOISE` [-]: near 1 where both agree.
    """

    burner: str
    fitted: tuple[Fitted, ...]
    held: tuple[Held, ...]
    residuals: tuple[Residual, ...]
    scatter: float


@dataclass(frozen=True, slots=True)
class _Bench:
    """Readings laid out for the fit: lamps along rows, what was read and where."""

    lamps: Lamps
    rows: tuple[int, ...]
    read: dict[str, Floats]
    places: dict[str, NDArray[np.intp]]


def _stacked(readings: Sequence[Reading]) -> Lamps:
    """Put the lamps of readings along one axis."""
    states = [
        replace(one.lamp.lamps, fuel=FULLEST if one.fullest else one.fuel) for one in readings
    ]
    columns = [dict(leaves(state)) for state in states]
    lamps = states[0]
    for name in columns[0]:
        lamps = with_leaf(lamps, name, np.array([float(column[name]) for column in columns]))
    return lamps


def _bench(readings: Sequence[Reading]) -> _Bench:
    read, places = {}, {}
    for what in _KINDS:
        values = [_read(one, what) for one in readings]
        places[what] = np.array([at for at, value in enumerate(values) if value is not None], int)
        read[what] = np.array([value for value in values if value is not None])
    return _Bench(_stacked(readings), tuple(one.row for one in readings), read, places)


def _read(one: Reading, what: str) -> float | None:
    """Return a figure of a reading; fuel only where the flame chose it itself."""
    if what == "fuel":
        return one.fuel if one.fullest else None
    return one.light if what == "light" else one.glass


def _computed(bench: _Bench, lamps: Lamps) -> dict[str, Floats]:
    """Return what would be read, along the last axis."""
    flames = solve(lamps)
    all_of = {"fuel": flames.fuel, "light": flames.light, "glass": flames.glass_foot}
    return {what: np.asarray(all_of[what])[..., at] for what, at in bench.places.items()}


def _wrong(bench: _Bench, lamps: Lamps) -> Floats:
    """Return computed over read, as logarithms over their noise, along the last axis."""
    computed = _computed(bench, lamps)
    return np.concatenate(
        [np.log(computed[what] / bench.read[what]) / NOISE[what] for what in _KINDS], axis=-1
    )


def _with(lamps: Lamps, names: Sequence[str], start: Floats, shift: Floats) -> Lamps:
    """Return lamps with figures changed by logarithms; more shifts go along a first axis."""
    for number, name in enumerate(names):
        value = start[number] * np.exp(shift[..., number])
        lamps = with_leaf(lamps, name, np.asarray(value)[..., None])
    return lamps


def _slopes(bench: _Bench, names: Sequence[str], start: Floats, shift: Floats) -> Floats:
    """Return the slope of what is wrong with each figure's logarithm, rows by figures."""
    moves = np.vstack([np.eye(len(names)), -np.eye(len(names))]) * _STEP + shift
    wrong = _wrong(bench, _with(bench.lamps, names, start, moves))
    half = len(names)
    return np.asarray((wrong[:half] - wrong[half:]).T / (2.0 * _STEP))


def _loosest(slopes: Floats) -> tuple[float, Floats]:
    """Return the uncertainty along the least determined direction, and the direction."""
    _, sizes, directions = np.linalg.svd(slopes, full_matrices=True)
    least = sizes[-1] if len(sizes) == slopes.shape[1] else 0.0
    return (1.0 / least if least > 0.0 else math.inf), directions[-1]


def _why(name: str, names: Sequence[str], direction: Floats, slopes: Floats) -> str:
    """Say why a figure is not fitted."""
    own = names.index(name)
    wanted = f"{_WANTED[name]} would"
    if float(np.linalg.norm(slopes[:, own])) < 1.0:
        return f"no reading depends on it: {wanted}"
    others = [
        SAYS[other]
        for number, other in enumerate(names)
        if number != own and abs(direction[number]) > _PARTNER
    ]
    if others:
        return f"it cannot be told apart from the {' and the '.join(others)}: {wanted}"
    return f"the readings leave it known to less than a factor of 1.6: {wanted}"


@dataclass(frozen=True, slots=True)
class _Fit:
    """Figures fitted, by logarithms from a start, and those that nothing determines."""

    names: tuple[str, ...]
    start: Floats
    shift: Floats
    held: dict[str, str]

    def put(self, lamps: Lamps) -> Lamps:
        """Return lamps with the fitted figures."""
        return _with(lamps, self.names, self.start, self.shift)


def _least(bench: _Bench, names: Sequence[str], start: Floats, shift: Floats) -> Floats:
    """Return the logarithms that fit best."""
    from scipy.optimize import (  # type: ignore[import-untyped]  # noqa: PLC0415 - slow to load
        least_squares,
    )

    def wrong(x: Floats) -> Floats:
        return _wrong(bench, _with(bench.lamps, names, start, x)).reshape(-1)

    ends = np.log(np.array([_ends(name) for name in names]).T / start)
    answer = least_squares(
        wrong, shift, jac=lambda x: _slopes(bench, names, start, x), bounds=ends, x_scale="jac"
    )
    return np.asarray(answer.x)


def _settle(bench: _Bench, wanted: Sequence[str], begin: dict[str, float]) -> _Fit:
    """Fit, leaving out one by one the figures that nothing determines."""
    names, held = list(wanted), dict[str, str]()
    while names:
        start, shift = np.array([begin[name] for name in names]), np.zeros(len(names))
        for fitting in (True, False):
            slopes = _slopes(bench, names, start, shift)
            spread, direction = _loosest(slopes)
            if spread > DETERMINED:
                worst = names[int(np.argmax(np.abs(direction)))]
                held[worst] = _why(worst, names, direction, slopes)
                names.remove(worst)
                break
            if not fitting:
                return _Fit(tuple(names), start, shift, held)
            shift = _least(bench, names, start, shift)
    return _Fit((), np.zeros(0), np.zeros(0), held)


def _ends(name: str) -> Floats:
    """Return the least and the greatest value a figure may take [SI unit]."""
    limit = LIMITS[name]
    return np.array([max(limit.low, 1e-6 * limit.high), limit.high])


def _one_burner(readings: Sequence[Reading]) -> str:
    burners = sorted({one.lamp.burner.id for one in readings})
    if not readings:
        msg = "there are no readings to fit: burn the lamp on the bench and write them down"
        raise BurnError(msg)
    if len(burners) > 1:
        msg = (
            f"the readings are of {len(burners)} burners ({', '.join(burners)}), and each has "
            "figures of its own: fit the readings of one burner at a time"
        )
        raise BurnError(msg)
    return burners[0]


def _book(lamps: Lamps) -> dict[str, float]:
    numbers = dict(leaves(lamps))
    return {name: float(np.asarray(numbers[name]).flat[0]) for name in FIT}


def _misfit(bench: _Bench, lamps: Lamps) -> float:
    return float(np.sum(_wrong(bench, lamps) ** 2))


def _fitted(bench: _Bench, book: dict[str, float]) -> tuple[_Fit, Lamps]:
    """Fit with a wick that never gives out, and with one that does; keep the simpler.

    Where the second explains the readings no better than chance would, the wick's limit is
    not determined.
    """
    others = [name for name in FIT if name != "wick.limit"]
    most = float(bench.read["fuel"].max()) if bench.read["fuel"].size else 0.0
    free = with_leaf(bench.lamps, "wick.limit", _ends("wick.limit")[1])
    endless = replace(bench, lamps=free)
    plain = _settle(endless, others, book)
    lamps = plain.put(free)
    if most:
        begin = {**book, **_values(plain), "wick.limit": most}
        limited = _settle(bench, FIT, begin)
        there = limited.put(bench.lamps)
        gain = _misfit(bench, lamps) - _misfit(bench, there)
        if "wick.limit" in limited.names and gain > _WORTH:
            return limited, there
    why = f"no reading shows the wick giving out: {_WANTED['wick.limit']} would"
    plain.held["wick.limit"] = why
    return plain, with_leaf(lamps, "wick.limit", max(book["wick.limit"], most))


def _values(fit: _Fit) -> dict[str, float]:
    values = fit.start * np.exp(fit.shift)
    return {name: float(value) for name, value in zip(fit.names, values, strict=True)}


def calibrate(readings: Sequence[Reading]) -> Calibration:
    """Fit a burner's figures to readings from the bench.

    Parameters
    ----------
    readings : sequence of Reading
        Of lamps with one burner: :func:`wickwright.burn.readings.read_readings`.

    Returns
    -------
    Calibration
        The figures the readings determine with their 95 % intervals, those they do not with
        the reason, and what is left over.

    Raises
    ------
    BurnError
        When there are no readings, or they are of several burners.

    Notes
    -----
    Least squares on logarithms (``scipy.optimize.least_squares``). A figure is left out where
    some mix of figures can change by more than :data:`DETERMINED` without the readings
    noticing; the one that leads the mix goes first.
    """
    burner = _one_burner(readings)
    bench = _bench(readings)
    book = _book(bench.lamps)
    fit, lamps = _fitted(bench, book)
    wrong = _wrong(bench, lamps)
    spare = max(1, wrong.size - len(fit.names))
    scatter = math.sqrt(float(np.sum(wrong**2)) / spare)
    now = _book(lamps)
    return Calibration(
        burner=burner,
        fitted=_intervals(bench, fit, book, scatter, spare),
        held=tuple(Held(n, SAYS[n], now[n], fit.held[n]) for n in FIT if n in fit.held),
        residuals=_residuals(bench, lamps),
        scatter=scatter,
    )


def _intervals(
    bench: _Bench, fit: _Fit, book: dict[str, float], scatter: float, spare: int
) -> tuple[Fitted, ...]:
    from scipy.special import stdtrit  # type: ignore[import-untyped]  # noqa: PLC0415 - slow to load

    if not fit.names:
        return ()
    slopes = _slopes(bench, fit.names, fit.start, fit.shift)
    spreads = np.sqrt(np.diag(np.linalg.inv(slopes.T @ slopes))) * max(1.0, scatter)
    quantile = float(stdtrit(spare, 0.975)) if spare >= _ENOUGH else _NORMAL
    wide = np.exp(quantile * spreads)
    values = _values(fit)
    return tuple(
        Fitted(n, SAYS[n], values[n], values[n] / w, values[n] * w, book[n])
        for n, w in zip(fit.names, wide.tolist(), strict=True)
    )


def _residuals(bench: _Bench, lamps: Lamps) -> tuple[Residual, ...]:
    computed = _computed(bench, lamps)
    found = [
        Residual(bench.rows[at], what, float(read), float(there), kind)
        for what, kind in _KINDS.items()
        for at, read, there in zip(
            bench.places[what], bench.read[what], computed[what], strict=True
        )
    ]
    return tuple(sorted(found, key=lambda one: one.row))


def calibrated(lamp: BurningLamp, found: Calibration) -> BurningLamp:
    """Return a lamp with the figures the readings gave its burner.

    Parameters
    ----------
    lamp : BurningLamp
        A lamp with that burner.
    found : Calibration
        What the readings say.

    Returns
    -------
    BurningLamp
        With the fitted values and a quarter of their 95 % intervals as spread.

    Raises
    ------
    BurnError
        When the lamp has another burner.
    """
    if lamp.burner.id != found.burner:
        msg = (
            f"the readings are of the burner {found.burner}, the lamp has {lamp.burner.id}: "
            "fit readings of its own burner"
        )
        raise BurnError(msg)
    by_name = {one.name: one for one in found.fitted}
    lamps = lamp.lamps
    for name, one in by_name.items():
        lamps = with_leaf(lamps, name, one.value)
    inputs = tuple(_fresh(one, by_name) for one in lamp.inputs)
    return replace(lamp, lamps=lamps, inputs=inputs)


def _fresh(one: Input, by_name: dict[str, Fitted]) -> Input:
    """Return a number as the readings leave it.

    The area of the passages only ever stands beside their loss, so that once the loss is fitted
    it adds no doubt of its own.
    """
    found = by_name.get(one.name)
    if found is None:
        told = one.name == "passages.area" and "passages.loss" in by_name
        return replace(one, spread=0.0) if told else one
    spread = 0.25 * (found.high - found.low)
    return replace(one, value=found.value, spread=spread, source="bench", default=False)
