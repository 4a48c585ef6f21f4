"""Limits of a room's air, as data: how much, over how long, who says so."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickwright.catalogue.spelling import meant
from wickwright.room.checks import RoomError

__all__ = ["LIMITS", "Limit", "limit_named", "limits_of", "mass_per_volume", "volume_share"]

_MOLAR_VOLUME: Final = 24.45e-3  # m3/mol at 25 °C and 1 atm, as the limits are converted
_MASS: Final = {"carbon monoxide": 0.02801, "carbon dioxide": 0.04401}  # kg/mol
HOUR: Final = 3600.0


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit.

    Attributes
    ----------
    key : str
        Short name, stable.
    gas : str
        Gas it speaks of, or ``'humidity'``.
    value : float
        Share of the air, or relative humidity [-].
    over : float
        Time it is a mean over [s]; zero for never.
    at_least : bool
        Whether it is the least allowed; else the most.
    says : str
        Who sets it and for whom, in words.
    source : str
        Key of the bibliography.
    """

    key: str
    gas: str
    value: float
    over: float
    at_least: bool
    says: str
    source: str


def mass_per_volume(gas: str, share: float) -> float:
    """Return the mass of a gas in air as limits are converted.

    Parameters
    ----------
    gas : str
        ``'carbon monoxide'`` or ``'carbon dioxide'``.
    share : float
        Share of the air [-].

    Returns
    -------
    float
        Mass per volume of air at 25 °C and 1 atm [kg/m3].

    Notes
    -----
    24.45 litres to a mole, ``osha-z1``.
    """
    return share * _MASS[gas] / _MOLAR_VOLUME


def volume_share(gas: str, mass: float) -> float:
    """Return the share of a gas from its mass in air.

    Parameters
    ----------
    gas : str
        ``'carbon monoxide'`` or ``'carbon dioxide'``.
    mass : float
        Mass per volume of air at 25 °C and 1 atm [kg/m3].

    Returns
    -------
    float
        Share of the air [-].

    Notes
    -----
    The inverse of :func:`mass_per_volume`.
    """
    return mass * _MOLAR_VOLUME / _MASS[gas]


def _co(key: str, share: float, over: float, says: str, source: str) -> Limit:
    return Limit(key, "carbon monoxide", share, over, at_least=False, says=says, source=source)


def _mg(milligrams: float) -> float:
    return volume_share("carbon monoxide", milligrams * 1e-6)


def _co2(key: str, share: float, over: float, says: str, source: str) -> Limit:
    return Limit(key, "carbon dioxide", share, over, at_least=False, says=says, source=source)


LIMITS: Final = (
    _co2("co2-elevated", 1000e-6, 0.0, "the German guide value for elevated air", "uba2008"),
    _co2(
        "co2-unacceptable", 2000e-6, 0.0, "the German guide value for unacceptable air", "uba2008"
    ),
    _co2("co2-work", 5000e-6, 8 * HOUR, "the OSHA limit at work over 8 hours", "osha-z1"),
    _co2(
        "co2-work-niosh", 5000e-6, 10 * HOUR, "the NIOSH limit at work over 10 hours", "niosh-co2"
    ),
    _co2("co2-short", 30000e-6, 0.25 * HOUR, "the NIOSH limit over 15 minutes", "niosh-co2"),
    Limit(
        key="oxygen-low",
        gas="oxygen",
        value=0.195,
        over=0.0,
        at_least=True,
        says="the OSHA rule for hazardous air",
        source="osha-oxygen",
    ),
    Limit(
        key="humid",
        gas="humidity",
        value=0.60,
        over=24 * HOUR,
        at_least=False,
        says="the US EPA advice against mold",
        source="epa-mold",
    ),
    Limit(
        key="wet",
        gas="humidity",
        value=1.0,
        over=0.0,
        at_least=False,
        says="the rule that vapour settles once the air is full",
        source="ashrae-psychrometrics",
    ),
    _co("co-work", 50e-6, 8 * HOUR, "the OSHA limit at work over 8 hours", "osha-z1"),
    _co("co-work-niosh", 35e-6, 8 * HOUR, "the NIOSH limit at work over 8 hours", "niosh-co"),
    _co("co-ceiling", 200e-6, 0.0, "the NIOSH ceiling at any time", "niosh-co"),
    _co("co-danger", 1200e-6, 0.0, "the NIOSH mark of danger to life", "niosh-co"),
    _co("co-ambient-hour", 35e-6, HOUR, "the US outdoor limit over 1 hour", "us-ambient"),
    _co("co-ambient", 9e-6, 8 * HOUR, "the US outdoor limit over 8 hours", "us-ambient"),
    _co(
        "co-europe-quarter",
        90e-6,
        0.25 * HOUR,
        "the WHO guideline for Europe over 15 minutes",
        "who-europe2000",
    ),
    _co(
        "co-europe-half",
        50e-6,
        0.5 * HOUR,
        "the WHO guideline for Europe over 30 minutes",
        "who-europe2000",
    ),
    _co(
        "co-europe-hour", 25e-6, HOUR, "the WHO guideline for Europe over 1 hour", "who-europe2000"
    ),
    _co(
        "co-europe", 10e-6, 8 * HOUR, "the WHO guideline for Europe over 8 hours", "who-europe2000"
    ),
    _co(
        "co-indoor-quarter",
        _mg(100),
        0.25 * HOUR,
        "the WHO guideline indoors over 15 minutes",
        "who-indoor2010",
    ),
    _co("co-indoor-hour", _mg(35), HOUR, "the WHO guideline indoors over 1 hour", "who-indoor2010"),
    _co("co-indoor", _mg(10), 8 * HOUR, "the WHO guideline indoors over 8 hours", "who-indoor2010"),
    _co(
        "co-indoor-day",
        _mg(7),
        24 * HOUR,
        "the WHO guideline indoors over 24 hours",
        "who-indoor2010",
    ),
    _co("co-day", _mg(4), 24 * HOUR, "the WHO guideline over 24 hours", "who2021"),
)
"""Every limit, mildest of a gas first where they rise. Limits at work are for grown people in
health; children, the old, the sick and the unborn have none here, so keep well below. An
older record of the work limits of carbon dioxide lists 10,000 and 30,000 ppm."""

_BY_KEY: Final = {limit.key: limit for limit in LIMITS}


def limit_named(key: str) -> Limit:
    """Return a limit by its name.

    Parameters
    ----------
    key : str
        Such as ``'co2-work'``.

    Returns
    -------
    Limit
        The limit.

    Raises
    ------
    RoomError
        When there is none of that name; says which was meant, or all there are.
    """
    if key in _BY_KEY:
        return _BY_KEY[key]
    names = ", ".join(_BY_KEY)
    guess = meant(key, _BY_KEY)
    raise RoomError([f"There is no limit '{key}': {guess}the limits are {names}."])


def limits_of(gas: str) -> tuple[Limit, ...]:
    """Return the limits of one gas, or of the humidity.

    Parameters
    ----------
    gas : str
        As :class:`Limit` names it.

    Returns
    -------
    tuple of Limit
        In the table's order.
    """
    return tuple(limit for limit in LIMITS if limit.gas == gas)
