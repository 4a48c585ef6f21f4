"""The flame in balance: one pass from an air flow to the air flow its draft would pull.

A pass works on arrays in place of lamps. Everything inside it (glow of the mantle, heat of the
gas, glass) takes one step of Newton's method from where the last pass left it, so that all of
it settles together with the air flow.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn import precision
from wickwright.burn.burnt_gas import (
    DEGREE,
    NEEDED_AIR,
    adiabatic,
    conductivity_of,
    gas,
    viscosity_of,
)
from wickwright.burn.glow import far_share, radiated
from wickwright.burn.outside import inside_nusselt, outside_coefficient
from wickwright.burn.ready import CELLS
from wickwright.physics.air import GRAVITY
from wickwright.physics.combustion import KEROSENE
from wickwright.physics.draft import EXIT_LOSS
from wickwright.physics.radiation import STEFAN_BOLTZMANN

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from wickwright.burn.ready import Ready

    Floats = NDArray[np.float64]

__all__ = ["SETTLED", "Burning", "Running", "burning", "first_flow", "run", "started"]

_FOUR = 4.0 / np.pi
_HOT = 1900.0
_MOST_PASSES = 40
_MANY, _ROUGH = 2048, 7  # states from which the first passes are made in single precision
_USUAL_FUEL = 65e-3 / 3600.0  # kg/s
_STILL_GLASS = 3e-6  # K
SETTLED: Final = 4e-9
"""Change of the air flow over it at which the flame counts as found [-]."""
_FIRST_STEPS, _FIRST_SLOPE, _SLOPES = 3, -1.2, (-1.35, -1.0)
_LEAST_LEFT = 0.4  # no pass takes away more of the air flow than leaves this share of it


@dataclass(slots=True)
class Running:
    """What settles from pass to pass.

    Attributes
    ----------
    mantle : array
        Temperature of the mantle [K].
    gas : list of array
        Gas entering each cell, and leaving the last [K].
    glass : list of array
        Glass of each cell [K].
    glow : array
        Power the mantle radiates on balance [W].
    flame : array
        Temperature of the flame at the mantle [K].
    foot : array
        Heat the gas gives to the glass of the foot [W].
    steps : list of array
        How far the last pass moved the glass of each cell [K].
    fall : list of array
        Mean gas over the gas that enters, of each cell [-].
    middle : array
        The same of the whole chimney [-].
    draft : array
        Pressure the hot column pulls with [Pa].
    """

    mantle: Floats
    gas: list[Floats]
    glass: list[Floats]
    glow: Floats
    flame: Floats
    foot: Floats
    steps: list[Floats]
    fall: list[Floats]
    middle: Floats
    draft: Floats


@dataclass(frozen=True, slots=True)
class Burning:
    """What burns at a given air flow.

    Attributes
    ----------
    fuel : array
        Fuel burnt [kg/s].
    ratio : array
        Air supplied over air needed [-].
    thermal : array
        Standard air that warms as much, over that needed [-].
    burnt : array
        Share of the fuel that burns [-]: below 1 without enough air.
    heat, slope : tuple of array
        Heat content of the gas of a kilogram of fuel, and its slope, coefficients of T [J/kg].
    """

    fuel: Floats
    ratio: Floats
    thermal: Floats
    burnt: Floats
    heat: tuple[Floats, ...]
    slope: tuple[Floats, ...]

    def content(self, at: Floats) -> Floats:
        """Return the heat content of the gas of a kilogram of fuel [J/kg]."""
        value = self.heat[DEGREE]
        for power in range(DEGREE - 1, -1, -1):
            value = value * at + self.heat[power]
        return value

    def capacity(self, at: Floats) -> Floats:
        """Return its slope with temperature [J/(kg K)]."""
        value = self.slope[DEGREE - 1]
        for power in range(DEGREE - 2, -1, -1):
            value = value * at + self.slope[power]
        return value


def burning(r: Ready, flow: Floats) -> Burning:
    """Return what burns at an air flow.

    Parameters
    ----------
    r : Ready
        The lamps.
    flow : array
        Air flow [kg/s].

    Returns
    -------
    Burning
        Fuel, ratio of air, heat content of the gas.
    """
    fuel = np.minimum(r.fuel, flow * r.cap)
    ratio = flow / (fuel * r.air.needed)
    thermal = ratio * r.air.thermal
    burnt = np.minimum(ratio, 1.0)
    spare = NEEDED_AIR * (thermal - burnt)
    products = 1.0 + NEEDED_AIR * burnt
    tables = gas()
    heat = tuple(spare * a + products * p for a, p in zip(tables.air, tables.products, strict=True))
    slope = tuple(power * heat[power] for power in range(1, DEGREE + 1))
    return Burning(fuel, ratio, thermal, burnt, heat, slope)


def started(r: Ready, flow: Floats) -> Running:
    """Return a guess to start from.

    Parameters
    ----------
    r : Ready
        The lamps.
    flow : array
        A first air flow [kg/s].

    Returns
    -------
    Running
        As a lamp of 780 W has it, warmer with more heat.
    """
    zero = 0.0 * flow
    room = r.air.temperature + zero
    warm = np.sqrt(np.minimum(r.fuel, flow * r.cap) / _USUAL_FUEL)
    hot = [room + rise * warm for rise in (1430.0, 980.0, 750.0, 590.0)]
    glass = [room + rise * warm for rise in (420.0, 290.0, 215.0)]
    return Running(
        mantle=room + 1400.0,
        gas=hot,
        glass=glass,
        glow=zero,
        flame=room + 1700.0,
        foot=250.0 * warm,
        steps=list(glass),
        fall=[zero + share for share in (0.87, 0.92, 0.93)],
        middle=zero + 0.75,
        draft=zero,
    )


def first_flow(r: Ready) -> Floats:
    """Return an air flow to start from: that of a column at 1050 K and the burner alone.

    Parameters
    ----------
    r : Ready
        The lamps.

    Returns
    -------
    array
        Air flow [kg/s].
    """
    push = GRAVITY * r.air.density * r.tube.height * (1.0 - r.air.temperature / 1050.0)
    exit_drag = 1.8 / (r.air.density * r.tube.body_area**2)
    return _pulled(push, r.drag + exit_drag, r.laminar)


def _pulled(push: Floats, square: Floats, linear: Floats) -> Floats:
    """Return the flow at which two losses use up a draft."""
    return 2.0 * push / (linear + np.sqrt(linear * linear + 4.0 * square * push))


def _glow(r: Ready, s: Running, b: Burning, steps: int) -> None:
    """Let the mantle take from the flame what it radiates."""
    over = b.thermal - 1.0
    ratio = 1.0 + r.joined * np.maximum(over, 0.0) + np.minimum(over, 0.0)
    lacking = r.lacking - ratio * (NEEDED_AIR / KEROSENE.lower_heating_value) * r.air.warm
    cooled = r.lamps.model.cooled_share * s.foot / (KEROSENE.lower_heating_value * b.fuel)
    lacking = lacking + cooled
    s.flame = adiabatic(ratio, lacking, r.air.thin)
    stream = b.fuel * _hot_capacity(ratio)
    mantle = r.lamps.mantle
    taken = stream * (1.0 - np.exp(-mantle.exchange / stream))
    around = mantle.infrared * STEFAN_BOLTZMANN * r.air.temperature**4
    visible, infrared = np.asarray(mantle.visible), np.asarray(mantle.infrared)
    for _ in range(steps):
        power, slope = radiated(s.mantle, visible, infrared)
        wrong = mantle.area * (power - around) - taken * (s.flame - s.mantle)
        s.mantle = s.mantle - wrong / (mantle.area * slope + taken)
    s.glow = taken * (s.flame - s.mantle)


def _hot_capacity(ratio: Floats) -> Floats:
    """Heat capacity at 1900 K of the stream a kilogram of fuel gives [J/(kg K)]."""
    tables, burnt = gas(), np.minimum(ratio, 1.0)
    air, products = (_slope(c, _HOT) for c in (tables.air, tables.products))
    return products * (1.0 + NEEDED_AIR * burnt) + air * NEEDED_AIR * (ratio - burnt)


def _slope(coefficients: tuple[float, ...], at: float) -> float:
    return sum(n * c * at ** (n - 1) for n, c in enumerate(coefficients) if n)


def _enter(r: Ready, s: Running, b: Burning, steps: int) -> tuple[Floats, Floats]:
    """Settle the gas that enters the chimney.

    Returns its heat content [J for a kilogram of fuel], and what the glass takes from the glow
    [W].
    """
    model, wick = r.lamps.model, r.lamps.wick
    heat = model.heating_value * b.burnt
    flame_glow = wick.radiant * heat * b.fuel
    content = heat + b.thermal * NEEDED_AIR * r.air.warm - (s.glow + flame_glow) / b.fuel
    hot = s.gas[0]
    for _ in range(steps):
        hot = hot - (b.content(hot) - content) / b.capacity(hot)
    s.gas[0] = hot
    return content, s.glow * far_share(s.mantle) + flame_glow * model.soot_far_share


def _cool(r: Ready, s: Running, b: Burning, held: Floats, stopped: Floats) -> None:
    """Cool the gas cell by cell and settle the glass beside it."""
    tube, room = r.tube, r.air.temperature
    dense = r.air.density * room
    mean = sum(n * g for n, g in zip(tube.lengths, s.glass, strict=True)) / tube.height
    outside = outside_coefficient(mean, room, dense, tube.height, tube.slenderness)
    middle = s.gas[0] * s.middle
    stream = b.fuel * b.capacity(middle)
    nusselt = inside_nusselt(_FOUR * stream / (conductivity_of(middle) * tube.height))
    for cell in range(CELLS):
        absorbed = stopped if cell == 0 else 0.0
        contact = r.lamps.model.foot_contact if cell == 0 else 1.0
        held = _cell(r, s, b, cell, held, absorbed, contact * nusselt, outside)
    s.middle = 0.5 + 0.5 * s.gas[CELLS] / s.gas[0]


def _cell(
    r: Ready,
    s: Running,
    b: Burning,
    cell: int,
    held: Floats,
    absorbed: Floats | float,
    nusselt: Floats,
    outside: Floats,
) -> Floats:
    """Take one step with the glass of a cell; return the heat content of the gas that leaves."""
    hot, glass, room = s.gas[cell], s.glass[cell], r.air.temperature
    shine = r.lamps.model.glass_emissivity * STEFAN_BOLTZMANN
    outer = r.tube.outer[cell]
    mean = hot * s.fall[cell]
    film = conductivity_of(0.5 * (mean + glass))
    square, base = glass * glass, room * room
    both = mean + glass
    radiant = r.gas_emissivity[cell] * STEFAN_BOLTZMANN
    coefficient = nusselt * film / r.tube.bores[cell] + radiant * both * (mean * mean + square)
    stream = b.fuel * b.capacity(mean)
    passed = np.exp(-coefficient * r.tube.inner[cell] / stream)
    gap = hot - glass
    near = 1.0 - passed
    left = b.content(hot - gap * near)
    given = b.fuel * (held - left)
    leaving = outside * (glass - room) + shine * (square * square - base * base)
    stiffer = radiant * (both * both + 2.0 * square) * r.tube.inner[cell] * passed
    firmer = stream * near - gap * stiffer
    slope = firmer + outer * (1.25 * outside + 4.0 * shine * square * glass)
    step = (given + absorbed - outer * leaving) / slope
    if cell == 0:
        s.foot = given - firmer * step
    s.glass[cell] = glass + step
    s.steps[cell] = step
    cool = hot - (gap - step) * near
    s.gas[cell + 1] = cool
    s.fall[cell] = 0.5 + 0.5 * cool / hot
    return left + (stream / b.fuel) * near * step


def _draw(r: Ready, s: Running, b: Burning, flow: Floats) -> Floats:
    """Return the flow that the column pulls through burner and chimney."""
    tube, room = r.tube, r.air.temperature
    ends = [1.0 / one for one in s.gas]
    lift = tube.height - r.lamps.model.flame_base * (1.0 - room * ends[0])
    for cell in range(CELLS):
        lift = lift - room * tube.lengths[cell] * _mean_inverse(s, ends, cell)
    s.draft = GRAVITY * r.air.density * lift
    square, linear = _chimney_drag(r, s, b, flow)
    return _pulled(s.draft, r.drag + square, r.laminar + linear)


def _mean_inverse(s: Running, ends: list[Floats], cell: int) -> Floats:
    """Return the mean of 1/T in a cell, by Simpson's rule on its exponential fall."""
    hot, cool, glass = s.gas[cell], s.gas[cell + 1], s.glass[cell]
    middle = glass + np.sqrt(np.maximum((hot - glass) * (cool - glass), 0.0))
    return (ends[cell] + ends[cell + 1] + 4.0 / middle) / 6.0


def _chimney_drag(r: Ready, s: Running, b: Burning, flow: Floats) -> tuple[Floats, Floats]:
    """Return losses of the gas, by square and by first power of the air flow."""
    tube, room = r.tube, r.air.temperature
    thin = 0.5 / (r.air.density * room)  # times T: half the specific volume
    gain = 1.0 + b.fuel / flow
    speeding = (s.gas[0] - room) / tube.foot_area**2
    leaving = (EXIT_LOSS + 1.0) * s.gas[CELLS] + (r.lamps.model.neck_loss - 1.0) * s.gas[1]
    square = thin * gain * gain * (speeding + leaving / tube.body_area**2)
    return square, gain * 2.0 * thin * _friction(r, s, flow * gain)


def _friction(r: Ready, s: Running, flow: Floats) -> Floats:
    """Return the friction of the chimney, for each unit of flow over density at 1 K.

    The foot, wide and short, as developed flow; the body with its entry, ``shah1978``, at the
    temperature of its middle.
    """
    tube, foot, body = r.tube, 0.5 * (s.gas[0] + s.gas[1]), s.gas[2]
    sticky = viscosity_of(body)
    length = tube.height - tube.lengths[0]
    reach = (0.25 * np.pi) * sticky * length / flow
    inlet = 3.44 / np.sqrt(reach)
    late = (16.0 + 0.3125 / reach - inlet) / (1.0 + 0.000212 / (reach * reach))
    wide = viscosity_of(foot) * foot * (tube.lengths[0] / tube.bores[0] ** 4)
    narrow = sticky * body * (length / tube.bores[1] ** 4)
    return (128.0 / np.pi) * (wide + narrow * (inlet + late) / 16.0)


def run(r: Ready, shape: tuple[int, ...], passes: int) -> tuple[Floats, Running, Burning, Floats]:
    """Find the air flow at which draft and losses balance.

    Parameters
    ----------
    r : Ready
        The lamps.
    shape : tuple of int
        Shape of the chunk.
    passes : int
        How many passes at least; more where the flow has not settled to :data:`SETTLED`.

    Returns
    -------
    tuple
        Air flow [kg/s], what settled, what burns, and the last pass's change of flow over
        the flow [-].

    Notes
    -----
    Secant steps on what a pass changes. A faster column of the same heat is cooler and pulls
    a little less, so that the slope of that lies between -1.35 and -1; it is held there, and
    no step can run away. Each pass leaves about a sixth of the error. Of many lamps the first
    passes are made in single precision, the others and the answer in double.
    """
    flow = first_flow(r) + np.zeros(shape)
    s, slope, steps = started(r, flow), np.asarray(_FIRST_SLOPE), _FIRST_STEPS
    if flow.size >= _MANY:
        quick = precision.single(s)
        flow, slope = _rough(precision.single(r), quick, precision.single(flow), slope)
        s, flow, slope = precision.double(quick), precision.double(flow), precision.double(slope)
        passes, steps = passes - _ROUGH, 1
    b, wrong = _pass(r, s, flow, steps)
    for number in range(_MOST_PASSES - 1):
        if number >= passes - 1 and _still(s, wrong / flow):
            break
        before, change = flow, wrong
        flow = np.maximum(flow - wrong / slope, _LEAST_LEFT * flow)
        b, wrong = _pass(r, s, flow, 1)
        slope = _slope_of(flow - before, wrong - change)
    return flow, s, b, wrong / flow


def _rough(r: Ready, s: Running, flow: Floats, slope: Floats) -> tuple[Floats, Floats]:
    """Make the first passes in single precision, twice as quick; return flow and slope."""
    slope = precision.single(slope)
    _, wrong = _pass(r, s, flow, _FIRST_STEPS)
    for _ in range(_ROUGH - 1):
        before, change = flow, wrong
        flow = np.maximum(flow - wrong / slope, _LEAST_LEFT * flow)
        _, wrong = _pass(r, s, flow, 1)
        slope = _slope_of(flow - before, wrong - change)
    return np.maximum(flow - wrong / slope, _LEAST_LEFT * flow), slope


def _slope_of(step: Floats, change: Floats) -> Floats:
    """Return the slope of what a pass changes, held where physics has it."""
    with np.errstate(divide="ignore", invalid="ignore"):
        slope = change / step
    return np.fmax(np.fmin(slope, _SLOPES[1]), _SLOPES[0])


def _still(s: Running, wrong: Floats) -> bool:
    """Tell whether air flow and glass have come to rest."""
    if float(np.max(np.abs(wrong))) > SETTLED:
        return False
    return all(float(np.max(np.abs(step))) < _STILL_GLASS for step in s.steps)


def _pass(r: Ready, s: Running, flow: Floats, steps: int) -> tuple[Burning, Floats]:
    """Settle everything one step at an air flow; return what burns and how far the flow is off."""
    b = burning(r, flow)
    _glow(r, s, b, steps)
    _cool(r, s, b, *_enter(r, s, b, steps))
    return b, _draw(r, s, b, flow) - flow
