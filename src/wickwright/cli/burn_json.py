"""How a lamp burns, as one JSON document."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.flames.predict_burn import OnABulb
from wickwright.answers.plain.burning import plain_burn, plain_calibration, plain_near, plain_room
from wickwright.answers.words.cautions import CAUTIONS
from wickwright.catalogue.records import Service

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain
    from wickwright.cli.burn import Asked, Told
    from wickwright.terms.units import Units

__all__ = ["plain_told"]


def plain_told(asked: Asked, told: Told, units: Units) -> dict[str, Plain]:
    """Return what came of a question about a flame.

    Parameters
    ----------
    asked : Asked
        What was typed.
    told : Told
        What came of it.
    units : Units
        For the words.

    Returns
    -------
    dict
        The keys of :func:`wickwright.answers.plain.burning.plain_burn` after ``lamp``; then
        ``before``, ``room``, ``near``, ``calibration``, ``cautions``.
    """
    service = Service.ELECTRIC if isinstance(told.answer, OnABulb) else Service.OIL
    return {
        "lamp": asked.lamp,
        **plain_burn(told.answer, units),
        "before": plain_burn(told.before, units) if told.before else None,
        "room": plain_room(told.room, units) if told.room else None,
        "near": plain_near(told.near, units) if told.near else None,
        "calibration": plain_calibration(told.calibration) if told.calibration else None,
        "cautions": list(CAUTIONS[service]),
    }
