"""Every formula answers an array as it answers each number in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from wickwright.physics import (
    air,
    combustion,
    convection,
    draft,
    flame,
    glass,
    humidity,
    kerosene,
    light,
    plume,
    radiation,
    transport,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Formula = Callable[..., float | Floats]

HOT = [320.0, 900.0, 1900.0]
PLACES = [-200.0, 1524.0, 4000.0]
PRESSURES = [101325.0, 84311.0, 60000.0]
K = combustion.KEROSENE
G = glass.BOROSILICATE

# The formula, what is held fixed in front, and three values of each argument.
CASES: list[tuple[Formula, tuple[object, ...], dict[str, list[float]]]] = [
    (air.geopotential, (), {"elevation": PLACES}),
    (air.temperature_at, (), {"elevation": PLACES}),
    (air.pressure_ratio, (), {"elevation": PLACES}),
    (air.pressure_at, (), {"elevation": PLACES}),
    (air.elevation_at, (), {"pressure": PRESSURES}),
    (air.density_at, (), {"elevation": PLACES}),
    (air.dry_density, (), {"pressure": PRESSURES, "temperature": HOT}),
    (humidity.saturation_pressure, (), {"temperature": [280.0, 300.0, 350.0]}),
    (
        humidity.moist_density,
        (),
        {"pressure": PRESSURES, "temperature": [280.0, 300.0, 310.0], "humidity": [0.0, 0.5, 1.0]},
    ),
    (transport.standard_viscosity, (), {"temperature": HOT}),
    (transport.viscosity, (), {"temperature": HOT}),
    (transport.conductivity, (), {"temperature": HOT}),
    (transport.heat_capacity, (), {"temperature": HOT}),
    (transport.prandtl, (), {"temperature": HOT}),
    (kerosene.energy_per_volume, (), {"density": [780.0, 800.0, 820.0], "heating_value": HOT}),
    (kerosene.smoke_point_reproducibility, (), {"height": [0.01, 0.02, 0.03]}),
    (kerosene.smoke_point_repeatability_automated, (), {"height": [0.01, 0.02, 0.03]}),
    (combustion.sulfur_dioxide_yield, (), {"sulfur": [0.0, 4e-4, 3e-3]}),
    (combustion.dry_carbon_dioxide, (K,), {"air_ratio": [1.0, 1.5, 3.0]}),
    (combustion.dry_oxygen, (K,), {"air_ratio": [1.0, 1.5, 3.0]}),
    (combustion.air_ratio_of_oxygen, (K,), {"oxygen": [0.0, 0.05, 0.15]}),
    (
        flame.complete_flame_temperature,
        (K,),
        {
            "air_ratio": [1.0, 1.5, 3.0],
            "air_temperature": [280.0, 300.0, 600.0],
            "lost": [0, 0.2, 0.5],
        },
    ),
    (
        flame.flame_temperature,
        (K,),
        {"air_ratio": [0.8, 1.0, 2.0], "pressure": PRESSURES, "lost": [0.0, 0.1, 0.2]},
    ),
    (
        draft.draft,
        (),
        {
            "height": [0.1, 0.3, 0.5],
            "pressure": PRESSURES,
            "outside": [270.0, 293.0, 300.0],
            "inside": HOT,
        },
    ),
    (
        draft.velocity_loss,
        (),
        {
            "loss": [0.5, 1, 2],
            "flow": [1e-4, 5e-4, 0],
            "area": [1e-4, 2e-4, 3e-4],
            "density": [1.2, 0.6, 0.4],
        },
    ),
    (
        draft.opening_flow,
        (),
        {
            "coefficient": [0.6, 0.65, 0.7],
            "area": [1, 2, 3],
            "height": [1, 2, 3],
            "inside": HOT,
            "outside": [300.0] * 3,
        },
    ),
    (
        draft.heated_column_flow,
        (),
        {
            "height": [0.1, 0.3, 0.5],
            "area": [1e-4, 2e-4, 3e-4],
            "loss": [1.0, 2.0, 5.0],
            "heat": [200.0, 600.0, 900.0],
            "capacity": [1100.0, 1150.0, 1200.0],
            "pressure": PRESSURES,
            "outside": [270.0, 293.0, 300.0],
        },
    ),
    (
        draft.reynolds,
        (),
        {
            "flow": [1e-4, 2e-4, 3e-4],
            "diameter": [0.01, 0.02, 0.03],
            "area": [1e-4, 2e-4, 3e-4],
            "viscosity": [2e-5] * 3,
        },
    ),
    (draft.development_length, (), {"diameter": [0.01, 0.02, 0.03], "number": [100, 500, 1000]}),
    (
        draft.pipe_loss,
        (),
        {
            "viscosity": [2e-5, 3e-5, 4e-5],
            "length": [0.1, 0.2, 0.3],
            "diameter": [0.02, 0.03, 0.04],
            "flow": [1e-4, 2e-4, 3e-4],
        },
    ),
    (
        draft.short_pipe_loss,
        (),
        {
            "viscosity": [2e-5, 3e-5, 4e-5],
            "density": [1.2, 0.6, 0.4],
            "length": [0.1, 0.2, 0.3],
            "diameter": [0.02, 0.03, 0.04],
            "flow": [1e-4, 2e-4, 3e-4],
        },
    ),
    (draft.annulus_friction, (), {"ratio": [0.05, 0.5, 0.9]}),
    (
        draft.annulus_loss,
        (),
        {
            "viscosity": [2e-5, 3e-5, 4e-5],
            "length": [0.1, 0.2, 0.3],
            "inner": [0.01, 0.02, 0.03],
            "outer": [0.02, 0.03, 0.04],
            "flow": [1e-4, 2e-4, 3e-4],
        },
    ),
    (
        draft.short_annulus_loss,
        (),
        {
            "viscosity": [2e-5, 3e-5, 4e-5],
            "density": [1.2, 0.6, 0.4],
            "length": [0.1, 0.2, 0.3],
            "inner": [0.01, 0.02, 0.03],
            "outer": [0.02, 0.03, 0.04],
            "flow": [1e-4, 2e-4, 3e-4],
        },
    ),
    (draft.sudden_expansion, (), {"ratio": [0.1, 0.5, 0.9]}),
    (draft.sudden_contraction, (), {"ratio": [0.1, 0.5, 0.9]}),
    (draft.rounded_entrance, (), {"ratio": [0.0, 0.1, 0.5]}),
    (
        convection.grashof,
        (),
        {
            "length": [0.1, 0.2, 0.3],
            "wall": [350.0, 400.0, 500.0],
            "air": [280.0, 293.0, 300.0],
            "pressure": PRESSURES,
        },
    ),
    (convection.upright_wall_nusselt, (), {"number": [0.68, 0.7, 0.72], "grash": [1e6, 1e8, 1e10]}),
    (
        convection.slender_cylinder_nusselt,
        (),
        {"number": [0.68, 0.7, 0.72], "grash": [1e6, 1e8, 1e10], "slenderness": [2.0, 6.0, 20.0]},
    ),
    (convection.horizontal_cylinder_nusselt, (), {"number": [0.7] * 3, "grash": [1e6, 1e8, 1e10]}),
    (convection.plate_facing_up_nusselt, (), {"number": [0.7] * 3, "grash": [1e6, 1e8, 1e10]}),
    (convection.plate_facing_down_nusselt, (), {"number": [0.7] * 3, "grash": [1e6, 1e8, 1e9]}),
    (
        convection.graetz,
        (),
        {"flow": [1e-4, 5e-4, 1e-3], "temperature": HOT, "length": [0.1, 0.2, 0.3]},
    ),
    (convection.tube_inside_nusselt, (), {"number": [0.1, 10.0, 1000.0]}),
    (
        convection.coefficient,
        (),
        {"nusselt": [5.0, 50.0, 70.0], "length": [0.1, 0.2, 0.3], "film": HOT},
    ),
    (
        convection.upright_tube_coefficient,
        (),
        {
            "height": [0.1, 0.2, 0.3],
            "diameter": [0.03, 0.05, 0.07],
            "wall": [350.0, 400.0, 500.0],
            "air": [280.0, 293.0, 300.0],
            "pressure": PRESSURES,
        },
    ),
    (radiation.black_exitance, (), {"temperature": HOT}),
    (radiation.spectral_exitance, (), {"wavelength": [5e-7, 1e-6, 1e-5], "temperature": HOT}),
    (radiation.fraction_below, (), {"wavelength": [5e-7, 1e-6, 1e-4], "temperature": HOT}),
    (
        radiation.band_fraction,
        (),
        {"low": [4e-7] * 3, "high": [8e-7, 1e-6, 1e-4], "temperature": HOT},
    ),
    (
        radiation.enclosed_exchange,
        (),
        {
            "emissivity": [0.1, 0.5, 0.9],
            "area": [1, 2, 3],
            "temperature": HOT,
            "around": [290.0] * 3,
        },
    ),
    (
        radiation.radiative_coefficient,
        (),
        {"emissivity": [0.1, 0.5, 0.9], "temperature": HOT, "around": [290.0] * 3},
    ),
    (light.eye, (), {"wavelength": [3e-7, 5.55e-7, 6.1e-7]}),
    (light.luminous_exitance, (), {"temperature": HOT}),
    (light.luminance, (), {"temperature": HOT}),
    (light.luminous_efficacy, (), {"temperature": HOT}),
    (light.temperature_exponent, (), {"temperature": HOT}),
    (light.flux_of_candlepower, (), {"candles": [1.0, 20.0, 60.0]}),
    (plume.heskestad_strength, (), {"air": [280.0, 293.0, 300.0], "pressure": PRESSURES}),
    (plume.virtual_origin, (), {"heat": [300.0, 800.0, 1e5], "diameter": [0.03, 0.05, 0.5]}),
    (
        plume.heskestad_rise,
        (),
        {
            "height": [0.5, 1.0, 2.0],
            "rising": [300.0, 500.0, 700.0],
            "origin": [0.0, 0.02, 0.04],
            "air": [280.0, 293.0, 300.0],
            "pressure": PRESSURES,
        },
    ),
    (
        plume.heskestad_height,
        (),
        {
            "rise": [20.0, 50.0, 100.0],
            "rising": [300.0, 500.0, 700.0],
            "origin": [0.0, 0.02, 0.04],
            "air": [280.0, 293.0, 300.0],
            "pressure": PRESSURES,
        },
    ),
    (
        plume.heskestad_velocity,
        (),
        {
            "height": [0.5, 1.0, 2.0],
            "rising": [300.0, 500.0, 700.0],
            "origin": [0.0, 0.02, 0.04],
            "air": [280.0, 293.0, 300.0],
            "pressure": PRESSURES,
        },
    ),
    (
        plume.heskestad_width,
        (),
        {
            "height": [0.5, 1.0, 2.0],
            "rise": [10.0, 50.0, 90.0],
            "origin": [0.0, 0.02, 0.04],
            "air": [280.0, 293.0, 300.0],
        },
    ),
    (plume.flame_height, (), {"heat": [300.0, 800.0, 1e5], "diameter": [0.03, 0.05, 0.5]}),
    (
        plume.mccaffrey_rise,
        (),
        {"height": [0.05, 0.15, 1.0], "heat": [800.0] * 3, "air": [280.0, 293.0, 300.0]},
    ),
    (plume.mccaffrey_velocity, (), {"height": [0.05, 0.15, 1.0], "heat": [800.0] * 3}),
    (
        plume.alpert_rise,
        (),
        {"height": [1.0, 1.0, 2.0], "radius": [0.0, 0.5, 1.0], "heat": [800.0] * 3},
    ),
    (
        plume.alpert_velocity,
        (),
        {"height": [1.0, 1.0, 2.0], "radius": [0.0, 0.5, 1.0], "heat": [800.0] * 3},
    ),
    (
        plume.point_source_flux,
        (),
        {"heat": [300.0, 800.0, 900.0], "share": [0.2, 0.3, 0.4], "distance": [0.1, 0.5, 1.0]},
    ),
    (
        plume.point_source_distance,
        (),
        {"heat": [300.0, 800.0, 900.0], "share": [0.2, 0.3, 0.4], "flux": [100.0, 500.0, 1000.0]},
    ),
    (glass.clamped_stress, (G,), {"difference": [-50.0, 0.0, 100.0]}),
    (glass.shock_limit, (G,), {"strength": [1e7, 3e7, 6e7]}),
    (glass.shock_limit_one_way, (G,), {"strength": [1e7, 3e7, 6e7]}),
    (glass.wall_drop, (G,), {"flux": [100.0, 1000.0, 5000.0], "thickness": [1e-3, 2e-3, 3e-3]}),
    (glass.wall_stress, (G,), {"drop": [1.0, 5.0, 20.0]}),
    (
        glass.gap_change,
        (),
        {
            "seat": [0.05, 0.06, 0.07],
            "rise": [50.0, 100.0, 200.0],
            "outer": [19e-6] * 3,
            "inner": [3.3e-6] * 3,
        },
    ),
]


@pytest.mark.parametrize("case", CASES, ids=[case[0].__name__ for case in CASES])
def test_array_equals_scalar(
    case: tuple[Formula, tuple[object, ...], dict[str, list[float]]],
) -> None:
    """A sweep over many places would answer otherwise than a question about one."""
    formula, fixed, values = case
    together = formula(*fixed, **{name: np.array(row, float) for name, row in values.items()})
    one_by_one = [
        formula(*fixed, **{name: float(row[place]) for name, row in values.items()})
        for place in range(3)
    ]
    assert isinstance(together, np.ndarray)
    assert all(isinstance(answer, float) for answer in one_by_one)
    assert together.tolist() == pytest.approx(one_by_one, rel=1e-12, abs=1e-300)


def test_gas_of_many_flames() -> None:
    """The gas of a sweep would be that of another flame."""
    ratios = np.array([[0.9, 1.0], [1.2, 2.0]])
    gas = flame.burnt_gas(K, ratios, np.asarray(101325.0))
    one = flame.burnt_gas(K, 1.2, 101325.0)
    assert gas.moles.shape == (2, 2, 11)
    assert gas.temperature[1, 0] == pytest.approx(one.temperature, rel=1e-12)
    assert gas.wet("CO")[1, 0] == pytest.approx(one.wet("CO"), rel=1e-9)
    assert flame.gas_at(K, ratios, 1e5, np.full((2, 2), 1500.0)).wet("CO").shape == (2, 2)


def test_selective_body_in_a_sweep() -> None:
    """Keyword-only emissivities would not broadcast over temperatures."""
    many = light.selective_efficacy(np.array(HOT), visible=0.6, infrared=0.05)
    assert many[2] == light.selective_efficacy(HOT[2], visible=0.6, infrared=0.05)


def test_floats_beside_arrays() -> None:
    """A float beside an array would not broadcast."""
    pressures = np.array(PRESSURES)
    mixed = draft.draft(np.asarray(0.3), pressures, np.asarray(293.15), np.asarray(800.0))
    assert mixed[1] == draft.draft(0.3, PRESSURES[1], 293.15, 800.0)
