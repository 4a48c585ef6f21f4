"""What the flame refuses to be computed for, in whole sentences."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.burn.parts import Air, leaves
from wickwright.physics.air import pressure_at
from wickwright.physics.combustion import AIR
from wickwright.terms.units import ELEVATION_RANGE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from wickwright.burn.parts import Lamps

__all__ = ["LIMITS", "MOST_FOOT", "BurnError", "Limit", "air_at", "checked", "checked_air"]


class BurnError(ValueError):
    """Something no flame can be computed for; the message says what, why and what mends it."""


@dataclass(frozen=True, slots=True)
class Limit:
    """The range a number is taken in.

    Attributes
    ----------
    says : str
        What the number is, in words.
    low, high : float
        Least and greatest [SI unit of the number].
    scale : float
        SI units in the unit it is said in.
    unit : str
        That unit.
    """

    says: str
    low: float
    high: float
    scale: float = 1.0
    unit: str = ""


def _length(says: str, low: float, high: float) -> Limit:
    return Limit(says, low, high, 1e-3, "mm")


def _share(says: str, low: float = 0.0, high: float = 1.0) -> Limit:
    return Limit(says, low, high, 0.01, "%")


LIMITS: Final[dict[str, Limit]] = {
    "passages.area": Limit("the area of the air passages", 1e-6, 1e-2, 1e-6, "mm2"),
    "passages.loss": Limit("the loss of the air passages", 0.0, 1000.0),
    "passages.laminar": Limit("the laminar resistance", 0.0, 1e11, 1e6, "1/cm3"),
    "passages.inner_share": _share("the share of air through the inner tube"),
    "wick.limit": Limit("the most fuel of the wick", 1e-7, 3e-4, 1e-3 / 3600.0, "g/h"),
    "wick.least_air": Limit("the least clean ratio of air", 1.0, 5.0),
    "wick.efficacy": Limit("the light of the bare flame", 0.0, 5.0, 1.0, "lm/W"),
    "wick.radiant": _share("the glow of the bare flame", 0.0, 0.6),
    "mantle.area": Limit("the area of the mantle", 0.0, 5e-2, 1e-4, "cm2"),
    "mantle.visible": _share("the mantle's visible emissivity"),
    "mantle.infrared": _share("the mantle's infrared emissivity", 0.005),
    "mantle.exchange": Limit("the mantle's exchange with the flame", 0.01, 100.0, 1.0, "W/K"),
    "chimney.height": _length("the height of the chimney", 0.02, 3.0),
    "chimney.foot_bore": _length("the bore of the chimney's foot", 5e-3, 0.3),
    "chimney.foot_length": _length("the length of the chimney's foot", 5e-3, 0.5),
    "chimney.body_bore": _length("the bore of the chimney's body", 5e-3, 0.3),
    "chimney.wall": _length("the thickness of the glass", 3e-4, 1e-2),
    "air.pressure": Limit("the air pressure", pressure_at(6000.0) - 3000.0, 110000.0, 100.0, "hPa"),
    "air.temperature": Limit("the temperature of the room", 243.15, 333.15, 1.0, "K"),
    "air.humidity": _share("the relative humidity"),
    "air.oxygen": _share("the oxygen of the dry air", 0.12, 0.2096),
    "air.carbon_dioxide": _share("the carbon dioxide of the dry air", 0.0, 0.1),
    "model.outer_joined": _share("the share of outer air that has joined the flame"),
    "model.cooled_share": _share("the share of the foot's heat lost before the mantle"),
    "model.gas_emissivity": _share("the emissivity of the gas", 0.0, 0.5),
    "model.glass_emissivity": _share("the emissivity of the glass"),
    "model.foot_contact": _share("the contact of the gas with the foot", 0.0, 2.0),
    "model.flame_base": _length("the height of the flame's base", 0.0, 0.1),
    "model.neck_loss": Limit("the loss at the chimney's neck", 0.0, 10.0),
    "model.transmission": _share("the share of light the glass lets through"),
    "model.soot_far_share": _share("the share of a yellow flame's glow the glass stops"),
    "model.heating_value": Limit("the heating value of the fuel", 40e6, 50e6, 1e6, "MJ/kg"),
    "model.density": Limit("the density of the fuel", 700.0, 900.0, 1.0, "kg/m3"),
}
"""What each number of a lamp may be; beyond, nothing here was thought through."""


def checked_air(air: Air) -> Air:
    """Refuse air that cannot be.

    Parameters
    ----------
    air : Air
        Of one room, or of many.

    Returns
    -------
    Air
        The same.

    Raises
    ------
    BurnError
        With every number that lies outside :data:`LIMITS`, all at once.
    """
    named = ((f"air.{one.name}", getattr(air, one.name)) for one in fields(air))
    faults = [fault for name, value in named if (fault := _fault(name, value, LIMITS[name]))]
    if faults:
        msg = "; ".join(faults) + ": check the figures and their units"
        raise BurnError(msg)
    return air


_FUEL = Limit("the fuel the wick is set to", 1e-7, 3e-4, 1e-3 / 3600.0, "g/h")


def _said(value: float, limit: Limit) -> str:
    return f"{value / limit.scale:.6g} {limit.unit}".rstrip()


def _first_wrong(values: NDArray[np.float64], limit: Limit) -> float | None:
    wrong = ~((values >= limit.low) & (values <= limit.high))
    return float(values[wrong].flat[0]) if wrong.any() else None


def _fault(name: str, value: float | NDArray[np.float64], limit: Limit) -> str:
    wrong = _first_wrong(np.asarray(value, dtype=np.float64), limit)
    if wrong is None:
        return ""
    low, high = _said(limit.low, limit), _said(limit.high, limit)
    return f"{limit.says} ({name}) is {_said(wrong, limit)}; it may be {low} to {high}"


def checked(lamps: Lamps) -> Lamps:
    """Refuse lamps with numbers that cannot be.

    Parameters
    ----------
    lamps : Lamps
        One state or many.

    Returns
    -------
    Lamps
        The same.

    Raises
    ------
    BurnError
        With every number that lies outside :data:`LIMITS`, all at once.
    """
    faults = [
        fault
        for name, value in leaves(lamps)
        if name != "fuel" and (fault := _fault(name, value, LIMITS[name]))
    ]
    asked = np.asarray(lamps.fuel, dtype=np.float64)
    if fault := _fault("fuel", asked[~np.isposinf(asked)], _FUEL):
        faults.append(fault)
    if not faults:
        faults.extend(_all_foot(lamps))
    if faults:
        msg = "; ".join(faults) + ": check the figures and their units"
        raise BurnError(msg)
    return lamps


MOST_FOOT: Final = 0.9
"""Most of a chimney's height that its foot may take [-]."""


def _all_foot(lamps: Lamps) -> Iterator[str]:
    """Yield a fault where the foot leaves next to no body."""
    foot = np.asarray(lamps.chimney.foot_length) / np.asarray(lamps.chimney.height)
    if bool(np.any(foot > MOST_FOOT)):
        yield (
            f"the foot of the chimney (chimney.foot_length) takes {100.0 * float(np.max(foot)):.0f}"
            f" % of its height; at most {100.0 * MOST_FOOT:.0f} % leaves a body to draw with"
        )


def air_at(
    elevation: float,
    *,
    temperature: float = 293.15,
    humidity: float = 0.5,
    oxygen: float = AIR["O2"],
    carbon_dioxide: float = AIR["CO2"],
) -> Air:
    """Return the air of a room at an elevation.

    Parameters
    ----------
    elevation : float
        Above sea level [m].
    temperature : float
        Of the room [K].
    humidity : float
        Relative humidity of the room [-].
    oxygen, carbon_dioxide : float
        Mole fractions in the dry air [-].

    Returns
    -------
    Air
        With the pressure of the standard atmosphere there (``usstd1976``) and the room's own
        temperature: density follows both.

    Raises
    ------
    BurnError
        When no one lives there.
    """
    low, high = ELEVATION_RANGE
    if not low <= elevation <= high:
        msg = (
            f"an elevation of {elevation:.0f} m is outside {low:.0f} m (the lowest shore) to "
            f"{high:.0f} m (the highest dwellings): check the figure and its unit"
        )
        raise BurnError(msg)
    return Air(pressure_at(elevation), temperature, humidity, oxygen, carbon_dioxide)
