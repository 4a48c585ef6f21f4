"""A bulb in a lampholder."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickwright.fit.joints.label import by_label
from wickwright.fit.joints.match import compared, differ, word
from wickwright.fit.joints.verdict import COLD, Fit, Joined

if TYPE_CHECKING:
    from wickwright.fit.joints.verdict import Half, Warmth

__all__ = ["LAMPHOLDER", "Lampholder"]

SKETCH = r"""
        .-""-.
       /  bulb \                cap: designation, such as E26, on both sides
       \  watts/                limit: the bulb's watts (standing side),
        \_____/                        the most watts (carrying side)
        |/////|  cap
     |__|_____|__|
     | lampholder|
"""

_CAP = (word("cap", why="caps", needed=True),)


@dataclass(frozen=True, slots=True)
class Lampholder:
    """Rule of bulb and lampholder."""

    key: str = "lampholder"
    sketch: str = SKETCH
    reads: tuple[str, ...] = ("cap", "limit")
    source: str = "iec60061-1"

    def judge(self, carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:  # noqa: ARG002 - caps are made for heat
        """Return the verdict for one pair of halves.

        Parameters
        ----------
        carrier, stander : Half
            Lampholder and bulb.
        warmth : Warmth
            Their temperatures [K]; not used.

        Returns
        -------
        Joined
            Caps equal, the bulb's watts not above the limit. A label can stand in for a cap,
            never for watts: those decide whether the holder overheats.
        """
        missing = compared(carrier.port, stander.port, _CAP)
        if isinstance(missing, Joined):
            return missing
        most, watts = carrier.port.numbers.get("limit"), stander.port.numbers.get("limit")
        if most is None or watts is None:
            sides = (("carrier limit", most), ("stander limit", watts))
            lacks = tuple(name for name, value in sides if value is None)
            return Joined(Fit.UNKNOWN, "missing", missing=missing + lacks)
        if watts > most:
            return differ("limit", f"{most:g} W", f"{watts:g} W")
        return by_label(None, missing, carrier, stander) if missing else Joined(Fit.FITS, "cap")


LAMPHOLDER = Lampholder()
"""The rule of the lampholder."""
