"""The joints: one rule, one file and one sketch each.

Sizes are judged cold, as worst case and as likely (statistical) interval, and warm where both
sides are hard. See :mod:`~wickwright.fit.joints.grade` for where the borders lie.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.joints.fitter import FITTER
from wickwright.fit.joints.lampholder import LAMPHOLDER
from wickwright.fit.joints.mantle_seat import MANTLE_SEAT
from wickwright.fit.joints.match import differ
from wickwright.fit.joints.open_arms import OPEN_ARMS
from wickwright.fit.joints.plain_foot import PLAIN_FOOT
from wickwright.fit.joints.quarter_turn import QUARTER_TURN
from wickwright.fit.joints.rest import REST
from wickwright.fit.joints.thread import THREAD
from wickwright.fit.joints.verdict import COLD
from wickwright.fit.joints.wick_tube import WICK_TUBE

if TYPE_CHECKING:
    from wickwright.fit.joints.verdict import Half, Joined, Joint, Warmth

__all__ = ["JOINTS", "judge"]

_JOINTS: tuple[Joint, ...] = (
    THREAD,
    PLAIN_FOOT,
    QUARTER_TURN,
    WICK_TUBE,
    MANTLE_SEAT,
    FITTER,
    OPEN_ARMS,
    LAMPHOLDER,
    REST,
)

JOINTS: dict[str, Joint] = {joint.key: joint for joint in _JOINTS}
"""Every joint rule by its name in the fit book."""


def judge(carrier: Half, stander: Half, warmth: Warmth = COLD) -> Joined:
    """Return the verdict on two halves of a joint.

    Parameters
    ----------
    carrier, stander : Half
        The carrying and the standing side.
    warmth : Warmth
        Their temperatures [K]; 20 °C where none are given.

    Returns
    -------
    Joined
        ``Fit.NOT`` with ``why='joint'`` where the ports belong to different joints; else what
        the joint's rule says.

    Raises
    ------
    KeyError
        When the book's joint is none of :data:`JOINTS`; a checked book has no such port.
    """
    joint, other = carrier.port.joint, stander.port.joint
    if joint != other:
        return differ("joint", joint, other)
    return JOINTS[joint].judge(carrier, stander, warmth)
