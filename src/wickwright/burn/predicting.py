"""How an assembled lamp burns: every figure with its error bar."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.assumptions import SAYS
from wickwright.burn.error_bars import Estimate, estimates
from wickwright.burn.flames import Flames, along, solve
from wickwright.burn.lamp import BurningLamp, Input, burning_lamp, set_to
from wickwright.burn.parts import FULLEST, Air, Lamps, Model
from wickwright.terms.finding import Kind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from wickwright.catalogue.assembly import Assembly

    Floats = NDArray[np.float64]

__all__ = [
    "HEADLINES",
    "Prediction",
    "headlines",
    "predict",
    "predict_lamp",
    "setting_input",
    "with_profile",
]

HEADLINES: Final[dict[str, Kind]] = {
    "light": Kind.LIGHT,
    "fuel": Kind.MASS_FLOW,
    "fuel_volume": Kind.VOLUME_FLOW,
    "heat": Kind.POWER,
    "run_time": Kind.TIME,
    "margin": Kind.RATIO,
    "draft": Kind.DRAFT,
    "air_flow": Kind.MASS_FLOW,
    "air_ratio": Kind.RATIO,
    "flame": Kind.TEMPERATURE,
    "mantle": Kind.TEMPERATURE,
    "gas": Kind.TEMPERATURE,
    "glass": Kind.TEMPERATURE,
    "exit_temperature": Kind.TEMPERATURE,
    "exit_speed": Kind.SPEED,
}
"""The figures of a prediction, and what each measures. ``margin`` is the air to spare above
the least that burns clean; ``air_ratio`` air drawn over air needed; ``glass`` the hottest."""

_BTU = 1055.05585262
_FLUID_OUNCE = 29.5735295625e-6
_PROFILE = 25
_DEFAULT_MODEL = Model()


@dataclass(frozen=True, slots=True)
class Prediction:
    """How a lamp burns where it stands.

    Attributes
    ----------
    lamp : BurningLamp
        What was computed from, with every input.
    setting : str or float
        As asked: ``'fullest'``, ``'mark'`` or a share of the wick's most fuel.
    estimates : mapping of str to Estimate
        By name of :data:`HEADLINES`.
    flames : Flames
        The state itself, without error bars.
    heights : array
        Heights above the chimney's foot [m].
    gas_along, glass_along : array
        Temperature of gas and of glass at these heights [K].
    """

    lamp: BurningLamp
    setting: str | float
    estimates: Mapping[str, Estimate]
    flames: Flames
    heights: Floats
    gas_along: Floats
    glass_along: Floats

    def __getitem__(self, name: str) -> Estimate:
        """Return one figure with its error bar."""
        return self.estimates[name]

    @property
    def grams_an_hour(self) -> float:
        """Fuel [g/h]."""
        return self["fuel"].value * 3.6e6

    @property
    def millilitres_an_hour(self) -> float:
        """Fuel [ml/h]."""
        return self["fuel_volume"].value * 3.6e9

    @property
    def fluid_ounces_an_hour(self) -> float:
        """Fuel [US fl oz/h]."""
        return self["fuel_volume"].value * 3600.0 / _FLUID_OUNCE

    @property
    def btu_an_hour(self) -> float:
        """Heat [Btu/h]."""
        return self["heat"].value * 3600.0 / _BTU

    @property
    def hours(self) -> float:
        """Hours on one fill [h]; 0 where the font's volume is not known."""
        return self["run_time"].value / 3600.0


def _answers(lamps: Lamps, volume: float) -> dict[str, Floats]:
    """Return the headlines of lamps along an axis."""
    return headlines(solve(lamps), lamps, volume)


def headlines(flames: Flames, lamps: Lamps, volume: float) -> dict[str, Floats]:
    """Return the headlines of flames.

    Parameters
    ----------
    flames : Flames
        Along an axis.
    lamps : Lamps
        What they were solved for.
    volume : float
        Fuel the font holds [m3].

    Returns
    -------
    dict of str to array
        By name of :data:`HEADLINES`, along the axis [SI unit of each].
    """
    density = np.asarray(lamps.model.density)
    named = {name: np.asarray(getattr(flames, name)) for name in HEADLINES if hasattr(flames, name)}
    fuel = named["fuel"]
    return {
        **named,
        "margin": np.round(named["margin"], 9),
        "fuel_volume": fuel / density,
        "run_time": volume * density / fuel,
        "glass": np.maximum(np.maximum(flames.glass_foot, flames.glass_lower), flames.glass_upper),
    }


def setting_input(lamp: BurningLamp, setting: str | float, fuel: float) -> tuple[Input, ...]:
    """Return the setting of the wick as a number with a spread.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp.
    setting : str or float
        As for :func:`predict`.
    fuel : float
        What it stands for [kg/s].

    Returns
    -------
    tuple of Input
        Empty where the fullest flame is asked for: it is found, not set.
    """
    if fuel == FULLEST:
        return ()
    measured = lamp.burner.flame.get("fuel_mark" if setting == "mark" else "wick_limit")
    share = measured.spread / measured.value if measured else 0.2
    source = measured.source if measured else "assumption"
    return (Input("fuel", SAYS["fuel"], fuel, share * fuel, source, lamp.burner.id),)


def predict_lamp(lamp: BurningLamp, setting: str | float = "fullest") -> Prediction:
    """Return how a lamp burns.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp in its room.
    setting : str or float
        ``'fullest'``, ``'mark'``, or a share of the most fuel the wick gives [-].

    Returns
    -------
    Prediction
        Every figure with one standard uncertainty and what it leans on.

    Raises
    ------
    BurnError
        When the setting is none of these.
    """
    fuel = set_to(lamp, setting)
    lamps = replace(lamp.lamps, fuel=fuel)
    inputs = (*lamp.inputs, *setting_input(lamp, setting, fuel))
    found = estimates(lamps, inputs, lambda some: _answers(some, lamp.volume), HEADLINES)
    return with_profile(lamp, setting, found, lamps, solve(lamps))


def with_profile(
    lamp: BurningLamp,
    setting: str | float,
    estimates: Mapping[str, Estimate],
    lamps: Lamps,
    flames: Flames,
) -> Prediction:
    """Return a prediction, with the temperatures along the chimney worked out.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp.
    setting : str or float
        Of its wick.
    estimates : mapping of str to Estimate
        By name of :data:`HEADLINES`.
    lamps, flames : Lamps, Flames
        The state solved.

    Returns
    -------
    Prediction
        Whole.
    """
    shares = np.linspace(0.0, 1.0, _PROFILE)
    gas, glass = along(flames, lamps, shares)
    return Prediction(
        lamp=lamp,
        setting=setting,
        estimates=estimates,
        flames=flames,
        heights=shares * float(lamps.chimney.height),
        gas_along=gas,
        glass_along=glass,
    )


def predict(
    assembly: Assembly,
    air: Air,
    *,
    setting: str | float = "fullest",
    model: Model = _DEFAULT_MODEL,
) -> Prediction:
    """Return how an assembled lamp burns in a room.

    Parameters
    ----------
    assembly : Assembly
        The lamp.
    air : Air
        The air of the room; :func:`wickwright.burn.checks.air_at` makes it for an elevation.
    setting : str or float
        ``'fullest'`` (the most light before carbon), ``'mark'``, or a share of the most fuel
        the wick gives, 0.2 to 1 [-].
    model : Model
        What no part says: assumptions, and the fuel.

    Returns
    -------
    Prediction
        Every figure with one standard uncertainty and the numbers that matter most.

    Raises
    ------
    BurnError
        When the lamp has no burner or chimney, is electric, or a figure cannot be.
    """
    return predict_lamp(burning_lamp(assembly, air, model), setting)
