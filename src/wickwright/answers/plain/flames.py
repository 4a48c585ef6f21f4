"""How lamps burn as plain dicts and lists, for JSON and for machines that ask."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.flames.predict_burn import Burns, FlameNotKnown, OnABulb
from wickwright.terms.finding import Kind

if TYPE_CHECKING:
    from wickwright.answers.flames.predict_burn import BurnAnswer
    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.plain.answers import Plain
    from wickwright.burn.error_bars import Estimate

__all__ = ["plain_burning", "plain_estimate", "plain_route_flame"]

_SUFFIX: dict[Kind, str] = {
    Kind.LIGHT: "lm",
    Kind.MASS_FLOW: "kg_per_s",
    Kind.POWER: "w",
    Kind.RATIO: "ratio",
    Kind.TIME: "s",
    Kind.TEMPERATURE: "k",
    Kind.VOLUME_FLOW: "m3_per_s",
    Kind.SPEED: "m_per_s",
    Kind.DRAFT: "pa",
}


def plain_estimate(one: Estimate | None) -> Plain:
    """Return an answer with its error bar.

    Parameters
    ----------
    one : Estimate or None
        The answer.

    Returns
    -------
    dict or None
        ``value`` and ``spread`` (one standard uncertainty), ``unit``, and ``leans_on``: the
        numbers that matter most, with ``name``, ``says``, ``change``, ``source``.
    """
    if one is None:
        return None
    return {
        "value": one.value,
        "spread": one.spread,
        "unit": _SUFFIX[one.kind],
        "leans_on": [
            {
                "name": driver.name,
                "says": driver.says,
                "change": driver.change,
                "source": driver.source,
            }
            for driver in one.drivers
        ],
    }


def plain_burning(burns: BurnAnswer) -> dict[str, Plain]:
    """Return how a lamp burns.

    Parameters
    ----------
    burns : BurnAnswer
        A flame, a bulb, or what is not known.

    Returns
    -------
    dict
        ``by`` is ``flame``, ``bulb`` or ``not known``; then ``light``, ``fuel``, ``heat``,
        ``run_time``, ``seat``, ``measure``.
    """
    flame = burns.prediction if isinstance(burns, Burns) else None
    seat = burns.seat if isinstance(burns, Burns) else None
    return {
        "by": "flame" if flame else "bulb" if isinstance(burns, OnABulb) else "not known",
        "light": plain_estimate(
            flame["light"] if flame else burns.light if isinstance(burns, OnABulb) else None
        ),
        "fuel": plain_estimate(flame["fuel"] if flame else None),
        "heat": plain_estimate(flame["heat"] if flame else None),
        "run_time": plain_estimate(flame["run_time"] if flame and flame.hours else None),
        "seat": {"gallery_k": seat.warmth.carrier, "foot_k": seat.warmth.stander} if seat else None,
        "measure": list(burns.measure) if isinstance(burns, FlameNotKnown) else [],
    }


def plain_route_flame(flame: RouteFlame) -> dict[str, Plain]:
    """Return how the lamp of a route burns.

    Parameters
    ----------
    flame : RouteFlame
        How it burns, beside the lamp as it was.

    Returns
    -------
    dict
        As of :func:`plain_burning`, with ``air_to_spare_at_mark``, ``light_gain`` and
        ``fuel_gain``.
    """
    return {
        **plain_burning(flame.burns),
        "air_to_spare_at_mark": plain_estimate(flame.at_mark),
        "light_gain": plain_estimate(flame.light),
        "fuel_gain": plain_estimate(flame.fuel),
    }
