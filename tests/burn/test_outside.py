from __future__ import annotations

import numpy as np
import pytest

from wickwright.burn.outside import inside_nusselt, outside_coefficient
from wickwright.physics.air import dry_density
from wickwright.physics.convection import tube_inside_nusselt, upright_tube_coefficient


@pytest.mark.parametrize("pressure", [101325.0, 60000.0])
@pytest.mark.parametrize("wall", [330.0, 480.0, 700.0])
def test_the_quick_coefficient_follows_the_correlation(pressure: float, wall: float) -> None:
    """Glass would lose heat to the room by another law than the one named."""
    ours = outside_coefficient(
        np.asarray(wall),
        np.asarray(293.15),
        np.asarray(dry_density(pressure, 293.15) * 293.15),
        np.asarray(0.30),
        np.asarray(0.30 / 0.044),
    )
    theirs = upright_tube_coefficient(
        height=0.30, diameter=0.044, wall=wall, air=293.15, pressure=pressure
    )
    assert float(ours) == pytest.approx(theirs, rel=0.015)


def test_inside_the_tube_the_table_is_the_formula() -> None:
    """Gas would cool on the glass by another law than the one named."""
    number = np.array([0.5, 7.3, 31.0, 250.0])
    assert inside_nusselt(number) == pytest.approx(tube_inside_nusselt(number), rel=1e-5)
