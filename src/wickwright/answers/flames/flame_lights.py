"""How bright burner, chimney and mantle are together where a lamp stands, by their flame."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.standing_air import INDOORS, standing_air
from wickwright.burn.bulb import bulb_light
from wickwright.burn.checks import BurnError
from wickwright.burn.trios import light_of_trios
from wickwright.catalogue.records import Service

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from wickwright.answers.flames.standing_air import RoomAir
    from wickwright.burn.error_bars import Estimate
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.light import Lights, Trio
    from wickwright.fit.place import Place

__all__ = ["MEASURED", "FlameLights", "flame_known", "light_of_bulb", "lights_at"]

MEASURED: Final = ("passage_area", "wick_limit")
"""What must have been measured on a burner before its flame is computed."""
_DARK = 0.01
"""Light below which nothing is told apart [lm]."""


def flame_known(burner: Part) -> bool:
    """Tell whether enough was measured on a burner to compute its flame.

    Parameters
    ----------
    burner : Part
        The burner.

    Returns
    -------
    bool
        False for an electric one.
    """
    measured = all(name in burner.flame for name in MEASURED)
    return measured and burner.service is not Service.ELECTRIC


_REMEMBERED = 64
"""Places whose flames a compiled book remembers at once."""


def lights_at(compiled: Compiled, place: Place, room: RoomAir = INDOORS) -> Lights:
    """Return who knows how bright the parts of a book are together at a place.

    Parameters
    ----------
    compiled : Compiled
        The fit book; it remembers what was solved for the places asked about last.
    place : Place
        Where the lamp stands.
    room : RoomAir
        The air of the room.

    Returns
    -------
    Lights
        By the flame.
    """
    found = compiled.lights.get((place, room))
    if found is None:
        if len(compiled.lights) >= _REMEMBERED:
            compiled.lights.clear()
        found = compiled.lights[place, room] = FlameLights(place, room)
    return found


def light_of_bulb(bulb: Part) -> Estimate | None:
    """Return the light of a bulb by its watts.

    Parameters
    ----------
    bulb : Part
        The bulb.

    Returns
    -------
    Estimate or None
        Luminous flux [lm]; None where no filament bulb has these watts.
    """
    try:
        return bulb_light(bulb.heat)
    except BurnError:
        return None


class FlameLights:
    """Light points by the flame, each trio solved once.

    Parameters
    ----------
    place : Place
        Where the lamp stands.
    room : RoomAir
        The air of the room.
    """

    def __init__(self, place: Place, room: RoomAir = INDOORS) -> None:
        self._air = standing_air(place, room)
        self._sorts: dict[str, Hashable] = {}
        self._points: dict[Hashable, int | None] = {}

    def knows(self, burner: Part) -> bool:
        """Tell whether the flame of a burner is known."""
        return flame_known(burner)

    def sort_of(self, part: Part) -> Hashable:
        """Return the measures that decide the light of a part."""
        found = self._sorts.get(part.id)
        if found is None:
            found = self._sorts[part.id] = _measures(part)
        return found

    def bulb_points(self, bulb: Part) -> int | None:
        """Return light points of a bulb: 100 ln of its light in lumens, whole."""
        light = light_of_bulb(bulb)
        return None if light is None else _points(light.value)

    def points(self, trios: Sequence[Trio]) -> Sequence[int | None]:
        """Return light points of trios: 100 ln of their light in lumens, whole.

        All that were not asked for before are solved in one array call.
        """
        keys = [tuple(self.sort_of(part) if part else None for part in trio) for trio in trios]
        new = {key: trio for key, trio in zip(keys, trios, strict=True) if key not in self._points}
        known = {key: trio for key, trio in new.items() if flame_known(trio.burner)}
        if new:
            light = light_of_trios(list(known.values()), self._air)
            self._points |= dict.fromkeys(new)
            self._points |= dict(zip(known, map(_points, light.tolist()), strict=True))
        return [self._points[key] for key in keys]


def _measures(part: Part) -> Hashable:
    measures = sorted((name, one.value) for name, one in part.flame.items())
    forms = tuple(port.words.get("form", "") for port in part.ports if port.joint == "wick")
    return part.kind, part.height if part.kind == "chimney" else None, forms, tuple(measures)


def _points(light: float) -> int | None:
    return None if math.isnan(light) else round(100.0 * math.log(max(light, _DARK)))
