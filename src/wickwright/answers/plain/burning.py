"""How a lamp burns, as plain dicts and lists for JSON: see :mod:`.answers`."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickwright.answers.flames.predict_burn import Burns, FlameNotKnown, OnABulb
from wickwright.answers.plain.answers import plain_finding, plain_part, unit_key
from wickwright.terms.finding import Quantity

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickwright.answers.flames.above_and_beside import AboveAndBeside
    from wickwright.answers.flames.predict_burn import BurnAnswer
    from wickwright.answers.flames.room_air import RoomAnswer
    from wickwright.answers.plain.answers import Plain
    from wickwright.burn.calibrating import Calibration
    from wickwright.burn.error_bars import Estimate
    from wickwright.terms.units import Units

__all__ = ["plain_burn", "plain_calibration", "plain_near", "plain_room"]

_NAMES: dict[type, str] = {Burns: "burns", OnABulb: "on a bulb", FlameNotKnown: "not known"}


def _number(value: float) -> float | None:
    return value if math.isfinite(value) else None


def _estimate(estimate: Estimate) -> dict[str, Plain]:
    return {
        unit_key(estimate.kind): _number(estimate.value),
        "spread": _number(estimate.spread),
        "leans_on": [
            {
                "name": one.name,
                "what": one.says,
                "change": _number(one.change),
                "source": one.source,
            }
            for one in estimate.drivers
        ],
    }


def _estimates(found: Mapping[str, Estimate]) -> dict[str, Plain]:
    return {name: _estimate(one) for name, one in found.items()}


def plain_burn(answer: BurnAnswer, units: Units) -> dict[str, Plain]:
    """Return how a lamp burns.

    Parameters
    ----------
    answer : BurnAnswer
        What came of the question.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``answer`` is ``burns``, ``on a bulb`` or ``not known``; then ``place``, ``parts``,
        ``setting``, ``figures``, ``light``, ``inputs``, ``measure``, ``findings``.
    """
    burns = answer if isinstance(answer, Burns) else None
    bulb = answer.light if isinstance(answer, OnABulb) else None
    place = answer.place
    return {
        "answer": _NAMES[type(answer)],
        "place": {"elevation_m": place.elevation, "pressure_pa": place.pressure},
        "parts": [plain_part(it.part) for it in answer.assembly.walk()],
        "setting": burns.prediction.setting if burns else None,
        "figures": _estimates(burns.prediction.estimates) if burns else None,
        "light": _estimate(bulb) if bulb else None,
        "inputs": _inputs(burns) if burns else [],
        "measure": list(answer.measure) if isinstance(answer, FlameNotKnown) else [],
        "findings": [plain_finding(one, units) for one in answer.findings],
    }


def _inputs(burns: Burns) -> list[Plain]:
    return [
        {
            "name": one.name,
            "what": one.says,
            "value": _number(one.value),
            "spread": one.spread,
            "source": one.source,
            "part": one.part or None,
            "assumed": one.default or one.source == "assumption",
        }
        for one in burns.prediction.lamp.inputs
    ]


def plain_room(room: RoomAnswer, units: Units) -> dict[str, Plain]:
    """Return what lamps do to a room.

    Parameters
    ----------
    room : RoomAnswer
        The room over the time asked about.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``volume_m3``, ``lamps``, ``people``, ``time_s``, ``air_change_per_s``, ``figures`` at
        the end, ``course``, ``assumptions``, ``findings``.
    """
    plan, course = room.plan, room.course
    return {
        "volume_m3": plan.volume,
        "lamps": plan.lamps,
        "people": plan.people,
        "time_s": plan.duration,
        "air_change_per_s": room.evening.room.change,
        "figures": _estimates(room.estimates),
        "course": {
            "time_s": list(course.times),
            "carbon_dioxide": [air.carbon_dioxide for air in course.airs],
            "oxygen": [air.oxygen for air in course.airs],
            "water": [air.water for air in course.airs],
            "fuel_of_a_lamp_kg_per_s": [flame.fuel for flame in room.flames],
            "light_of_a_lamp_lm": [flame.light for flame in room.flames],
        },
        "assumptions": [
            {
                "what": one.says,
                "value": {unit_key(one.value.kind): one.value.value}
                if isinstance(one.value, Quantity)
                else str(one.value),
                "source": one.source,
            }
            for one in room.assumptions
        ],
        "findings": [plain_finding(one, units) for one in room.findings],
    }


def plain_near(near: AboveAndBeside, units: Units) -> dict[str, Plain]:
    """Return what is above a lamp and beside it.

    Parameters
    ----------
    near : AboveAndBeside
        The judgement.
    units : Units
        For the words.

    Returns
    -------
    dict
        ``keep_above`` and ``keep_beside`` of wood, ``findings``.
    """
    return {
        "keep_above": _estimate(near.keep_above),
        "keep_beside": _estimate(near.keep_beside),
        "findings": [plain_finding(one, units) for one in near.findings],
    }


def plain_calibration(found: Calibration) -> dict[str, Plain]:
    """Return what bench readings say about a burner.

    Parameters
    ----------
    found : Calibration
        The fit.

    Returns
    -------
    dict
        ``burner``, ``fitted`` with 95 % intervals, ``held`` with the reason, ``residuals``,
        ``scatter``.
    """
    return {
        "burner": found.burner,
        "fitted": [
            {
                "name": one.name,
                "what": one.says,
                "value": one.value,
                "interval": [one.low, one.high],
                "before": one.before,
            }
            for one in found.fitted
        ],
        "held": [
            {"name": one.name, "what": one.says, "value": one.value, "because": one.why}
            for one in found.held
        ],
        "residuals": [
            {
                "row": one.row,
                "what": one.what,
                "measured": {unit_key(one.kind): one.measured},
                "computed": {unit_key(one.kind): one.computed},
            }
            for one in found.residuals
        ],
        "scatter": found.scatter,
    }
