"""A prediction held to every rule of the flame: all findings at once."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.burn.flames import solve
from wickwright.burn.glass_stress import (
    KNOWN_WITHIN,
    STRENGTH,
    GlassMargins,
    Seat,
    Stress,
    glass_margins,
)
from wickwright.burn.parts import FULLEST, with_leaf
from wickwright.burn.ranges import out_of_range
from wickwright.physics.air import SEA_LEVEL_PRESSURE
from wickwright.terms.finding import Finding, Kind, Quantity, Range, Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.burn.error_bars import Estimate
    from wickwright.burn.lamp import BurningLamp
    from wickwright.burn.parts import Lamps
    from wickwright.burn.predicting import Prediction
    from wickwright.catalogue.records import Part
    from wickwright.terms.finding import Fact

__all__ = ["STARVED", "at_its_best", "brighter", "findings"]

STARVED = 0.85
"""Least share of its light at its best at which a lamp is not called starved [-]:
``assumption``."""
_WICK_SHORT = 0.02
_UNSETTLED = 1e-6

_GLASS = {"glass": "heat-rated glass", "soda-glass": "soda-lime glass"}
_CASES = {
    "lighting": "At lighting",
    "service": "In service",
    "draught": "Under a cold draught",
    "splash": "Under a splash of water",
    "seat": "In its seat",
}
_ADVICE = {
    "lighting": "Light it low and turn it up after ten minutes; take heat-rated glass.",
    "service": "Take heat-rated glass, or turn the wick down.",
    "draught": "Keep the lamp out of draughts; take heat-rated glass.",
    "splash": "Keep water, snow and wet cloths away from a lit lamp: no glass is safe from them.",
    "seat": "Do not turn the glass while it is hot, keep lugs and grooves clean, or change to a "
    "plain-foot gallery that fits the same burner.",
}


def _called(part: Part) -> str:
    return f"{part.name} ({part.id})"


def _quantity(estimate: Estimate) -> Quantity:
    return Quantity(estimate.value, estimate.kind)


def _ratio(value: float) -> Quantity:
    return Quantity(value, Kind.RATIO)


def at_its_best(lamp: BurningLamp) -> Lamps:
    """Return the flame that a lamp's light is measured against.

    Parameters
    ----------
    lamp : BurningLamp
        The lamp in its room.

    Returns
    -------
    Lamps
        The fullest flame at sea level in the same room, under the least chimney the burner's
        maker states; under its own where he states none.
    """
    least = lamp.burner.least_chimney or float(lamp.lamps.chimney.height)
    lowered = with_leaf(lamp.lamps, "chimney.height", least)
    air = replace(lamp.lamps.air, pressure=SEA_LEVEL_PRESSURE)
    return replace(lowered, air=air, fuel=FULLEST)


def findings(
    prediction: Prediction, seat: Seat | None = None, best: float | None = None
) -> tuple[Finding, ...]:
    """Hold a prediction to every rule of the flame.

    Parameters
    ----------
    prediction : Prediction
        How the lamp burns.
    seat : Seat or None
        How its chimney is held (:func:`wickwright.burn.glass_stress.seat_of`); None leaves the
        seat out.
    best : float or None
        Light of :func:`at_its_best` [lm], where it is known already.

    Returns
    -------
    tuple of Finding
        Gravest first.
    """
    if not float(prediction.flames.settled) < _UNSETTLED:
        return (_unsettled(prediction.lamp),)
    found = [
        *_starved(prediction, best),
        *_wick_short(prediction),
        *_carbon(prediction),
        *_heat(prediction),
        *_stresses(prediction, glass_margins(prediction, seat)),
        *_webless(prediction),
        *_running(prediction),
        *_assumed(prediction.lamp),
        *_ranges(prediction),
        _care(prediction),
    ]
    return tuple(sorted(found, key=lambda finding: -finding.severity))


def _unsettled(lamp: BurningLamp) -> Finding:
    facts = {"burner": _called(lamp.burner), "chimney": _called(lamp.chimney)}
    return Finding("burn-unsettled", Severity.FAULT, (lamp.burner.id, lamp.chimney.id), facts)


def _starved(prediction: Prediction, best: float | None) -> Iterator[Finding]:
    """Compare the fullest flame here with what the burner's maker is content with."""
    lamp = prediction.lamp
    light = prediction.flames.light
    if prediction.setting != "fullest":
        light = solve(replace(lamp.lamps, fuel=FULLEST)).light
    wanted = float(solve(at_its_best(lamp)).light) if best is None else best
    share = float(light) / wanted if wanted > 0.0 else math.nan
    if share < STARVED and _short_of_air(prediction):
        stated = lamp.burner.least_chimney is not None
        facts: dict[str, Fact] = {
            "chimney": _called(lamp.chimney),
            "burner": _called(lamp.burner),
            "light": Quantity(wanted, Kind.LIGHT),
            "under": "the least chimney its maker states" if stated else "the same chimney",
        }
        yield Finding(
            "burn-starved",
            Severity.CAUTION,
            (lamp.chimney.id, lamp.burner.id),
            facts,
            _ratio(share),
            Range(STARVED, None, Kind.RATIO),
            "assumption",
        )


def _short_of_air(prediction: Prediction) -> bool:
    """Whether the air, not the wick, sets the fullest flame."""
    if prediction.setting == "fullest":
        return prediction["margin"].value <= _WICK_SHORT
    full = solve(replace(prediction.lamp.lamps, fuel=FULLEST))
    return float(full.margin) <= _WICK_SHORT


def _wick_short(prediction: Prediction) -> Iterator[Finding]:
    margin = prediction["margin"].value
    if prediction.setting == "fullest" and margin > _WICK_SHORT:
        lamp = prediction.lamp
        facts: dict[str, Fact] = {
            "chimney": _called(lamp.chimney),
            "air": Quantity(prediction["air_flow"].value, Kind.MASS_FLOW),
        }
        yield Finding(
            "burn-taller-unneeded",
            Severity.NOTE,
            (lamp.chimney.id, lamp.burner.id),
            facts,
            _ratio(margin),
            Range(None, _WICK_SHORT, Kind.RATIO),
        )


def _carbon(prediction: Prediction) -> Iterator[Finding]:
    margin, lamp = prediction["margin"], prediction.lamp
    if prediction.setting == "fullest":
        return
    if margin.value < 0.0:
        fullest = solve(replace(lamp.lamps, fuel=FULLEST))
        facts: dict[str, Fact] = {
            "burner": _called(lamp.burner),
            "fuel": _quantity(prediction["fuel"]),
            "air": _quantity(prediction["air_ratio"]),
            "fullest": Quantity(float(fullest.fuel), Kind.MASS_FLOW),
        }
        least = Range(float(lamp.lamps.wick.least_air), None, Kind.RATIO)
        measured = _quantity(prediction["air_ratio"])
        yield Finding("burn-carbon", Severity.FAULT, (lamp.burner.id,), facts, measured, least)
    elif margin.value < margin.spread:
        facts = {"burner": _called(lamp.burner), "spread": _ratio(margin.spread)}
        yield Finding(
            "burn-carbon-near",
            Severity.NOTE,
            (lamp.burner.id,),
            facts,
            _ratio(margin.value),
            Range(margin.spread, None, Kind.RATIO),
        )


def _heat(prediction: Prediction) -> Iterator[Finding]:
    chimney, burner, heat = prediction.lamp.chimney, prediction.lamp.burner, prediction["heat"]
    facts: dict[str, Fact] = {"burner": _called(burner), "chimney": _called(chimney)}
    if chimney.heat_rating is not None and heat.value > chimney.heat_rating:
        yield Finding(
            "burn-glass-heat",
            Severity.FAULT,
            (chimney.id, burner.id),
            facts,
            _quantity(heat),
            Range(None, chimney.heat_rating, Kind.POWER),
        )


def _stresses(prediction: Prediction, glass: GlassMargins) -> Iterator[Finding]:
    chimney = prediction.lamp.chimney
    material = _GLASS.get(glass.material, "glass of no known kind, taken for heat-rated")
    facts: dict[str, Fact] = {"chimney": _called(chimney), "material": material}
    if glass.warmest > glass.allowed:
        yield Finding(
            "burn-glass-hot",
            Severity.FAULT,
            (chimney.id,),
            facts,
            Quantity(glass.warmest, Kind.TEMPERATURE),
            Range(None, glass.allowed, Kind.TEMPERATURE),
        )
    for one in glass.cases:
        if one.margin < KNOWN_WITHIN:
            yield Finding(
                "burn-glass-stress",
                _gravity(one),
                (chimney.id,),
                {
                    **facts,
                    "case": _CASES[one.case],
                    "assumed": one.assumed,
                    "advice": _ADVICE[one.case],
                },
                Quantity(one.tension, Kind.STRESS),
                Range(None, STRENGTH, Kind.STRESS),
            )


def _gravity(stress: Stress) -> Severity:
    """Return how much a tension matters: a splash breaks any glass, a seat some of them."""
    if stress.case == "splash":
        return Severity.NOTE
    sure = stress.margin < 1.0 and stress.case != "seat"
    return Severity.FAULT if sure else Severity.CAUTION


def _webless(prediction: Prediction) -> Iterator[Finding]:
    lamp = prediction.lamp
    if lamp.mantle is None and not lamp.flat:
        facts = {"burner": _called(lamp.burner)}
        yield Finding("burn-no-mantle", Severity.FAULT, (lamp.burner.id,), facts)


def _running(prediction: Prediction) -> Iterator[Finding]:
    time = prediction["run_time"]
    if time.value > 0.0:
        facts: dict[str, Fact] = {
            "spread": Quantity(time.spread, Kind.TIME),
            "fuel": _quantity(prediction["fuel"]),
            "volume": _quantity(prediction["fuel_volume"]),
        }
        parts = (prediction.lamp.burner.id,)
        yield Finding("burn-run-time", Severity.NOTE, parts, facts, _quantity(time))


def _assumed(lamp: BurningLamp) -> Iterator[Finding]:
    """Name part by part what the book has no figure for."""
    for part in (lamp.burner, lamp.chimney, lamp.mantle):
        missing = [one.says for one in lamp.inputs if one.default and part and one.part == part.id]
        if part and missing:
            facts: dict[str, Fact] = {"part": _called(part), "names": tuple(missing)}
            yield Finding("burn-assumed", Severity.NOTE, (part.id,), facts)


def _ranges(prediction: Prediction) -> Iterator[Finding]:
    for one in out_of_range(prediction):
        validity = one.validity
        unit = "" if validity.unit == "-" else f" {validity.unit}"
        facts: dict[str, Fact] = {
            "formula": validity.formula,
            "argument": validity.argument,
            "permitted": f"from {validity.low:g} to {validity.high:g}{unit}",
            "value": f"{one.value:.4g}{unit}",
        }
        parts = (prediction.lamp.burner.id, prediction.lamp.chimney.id)
        yield Finding("burn-range", Severity.NOTE, parts, facts, source=validity.source)


def _care(prediction: Prediction) -> Finding:
    burner = prediction.lamp.burner
    facts = {"burner": _called(burner)}
    heat = _quantity(prediction["heat"])
    return Finding("burn-care", Severity.CAUTION, (burner.id,), facts, heat)


def brighter(here: Prediction, other: Prediction) -> Finding | None:
    """Say what another chimney is worth.

    Parameters
    ----------
    here, other : Prediction
        The same lamp in the same room with its chimney and with another, at one setting.

    Returns
    -------
    Finding or None
        None where the other gives no more light.
    """
    light = other["light"].value / here["light"].value - 1.0
    fuel = other["fuel"].value / here["fuel"].value - 1.0
    if light <= 0.0:
        return None
    mine, yours = here.lamp.chimney, other.lamp.chimney
    facts: dict[str, Fact] = {
        "chimney": _called(mine),
        "other": _called(yours),
        "light": _ratio(light),
        "hours": _quantity(other["run_time"]),
    }
    return Finding("burn-brighter", Severity.NOTE, (yours.id, mine.id), facts, _ratio(fuel))
