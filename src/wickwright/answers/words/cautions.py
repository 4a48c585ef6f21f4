"""The usual cautions, said with every answer that sends parts to someone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import Service

if TYPE_CHECKING:
    from wickwright.fit.request import Situation

__all__ = ["CAUTIONS", "service_wanted", "usual_cautions"]

CAUTIONS: dict[Service, tuple[str, ...]] = {
    Service.OIL: (
        "Clear 1-K kerosene only. Never gasoline, never camp fuel: fire and explosion.",
        "Air in the room and a carbon monoxide alarm. Never leave a burning lamp unattended.",
        "Glass and metal are hot for long after: let the lamp go out and cool before touching it.",
        "Local codes, the maker's leaflet and licensed practice come first.",
    ),
    Service.ELECTRIC: (
        "Fuel out of the font first, and the font cleaned and aired. Never a bulb over fuel.",
        "Wiring by the local electrical code, by someone licensed; pull the plug before any work.",
        "No stronger bulb than the lampholder states. Bulb and glass are hot.",
        "Local codes, the maker's leaflet and licensed practice come first.",
    ),
}
"""By what gives the light; common practice, no published source."""


def service_wanted(now: Situation) -> Service:
    """Return what the lamp is to run on: what the wish asks for, or what it runs on now.

    Parameters
    ----------
    now : Situation
        The request, looked at.

    Returns
    -------
    Service
        Oil or electric.
    """
    asked = (ask.value for ask in now.request.wish.asks if ask.ask == "service")
    return Service(next(asked, now.service.value))


def usual_cautions(now: Situation) -> tuple[str, ...]:
    """Return what must be said with the answer to a request.

    Parameters
    ----------
    now : Situation
        The request, looked at.

    Returns
    -------
    tuple of str
        Sentences.
    """
    return CAUTIONS[service_wanted(now)]
