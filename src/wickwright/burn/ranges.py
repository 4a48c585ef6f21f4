"""Which formulas of the physics a prediction leans on beyond where they were tried."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from wickwright.physics.convection import CONVECTION_RANGES, grashof
from wickwright.physics.draft import DRAFT_RANGES, reynolds
from wickwright.physics.flame import FLAME_RANGES
from wickwright.physics.formula import Validity, outside
from wickwright.physics.humidity import SATURATION_RANGE
from wickwright.physics.light import LIGHT_RANGES
from wickwright.physics.transport import prandtl, viscosity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.burn.predicting import Prediction

__all__ = ["Beyond", "out_of_range"]

_BY_NAME: dict[str, Validity] = {
    one.formula: one
    for one in (*CONVECTION_RANGES, *DRAFT_RANGES, *FLAME_RANGES, *LIGHT_RANGES, SATURATION_RANGE)
}


@dataclass(frozen=True, slots=True)
class Beyond:
    """A formula used beyond its range.

    Attributes
    ----------
    validity : Validity
        The formula and its range.
    value : float
        What it was used at [unit of the range].
    """

    validity: Validity
    value: float


def _used(prediction: Prediction) -> Iterator[tuple[str, float]]:
    """Yield each formula with the number its range is about."""
    lamps, flames = prediction.lamp.lamps, prediction.flames
    bore, height = float(lamps.chimney.body_bore), float(lamps.chimney.height)
    flow = float(flames.air_flow) + float(flames.fuel)
    warm = np.asarray(float(flames.gas_middle))
    number = reynolds(flow, bore, math.pi * bore**2 / 4.0, float(viscosity(warm)))
    yield "pipe_loss", number
    yield "tube_inside_nusselt", number
    room, wall = float(lamps.air.temperature), float(flames.glass_lower)
    film = np.asarray(0.5 * (room + wall))
    grash = grashof(height, wall, room, float(lamps.air.pressure))
    yield "upright_wall_nusselt", float(prandtl(film)) * float(grash)
    inner = float(lamps.passages.inner_share)
    joined = inner + (1.0 - inner) * float(lamps.model.outer_joined)
    over = float(flames.air_ratio) - 1.0
    yield "flame_temperature", 1.0 + over * (joined if over > 0.0 else 1.0)
    if prediction.lamp.mantle is not None:
        yield "selective_efficacy", float(flames.mantle)
    yield "saturation_pressure", room


def out_of_range(prediction: Prediction) -> tuple[Beyond, ...]:
    """Return the formulas used beyond where they were tried.

    Parameters
    ----------
    prediction : Prediction
        How a lamp burns.

    Returns
    -------
    tuple of Beyond
        Empty where all of them hold.
    """
    return tuple(
        Beyond(_BY_NAME[name], value)
        for name, value in _used(prediction)
        if outside(_BY_NAME[name], value)
    )
