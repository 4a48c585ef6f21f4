"""The seat of the chimney at the temperatures its own flame gives it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.burn.glass_stress import seat_warmth
from wickwright.fit.joiner import Joiner
from wickwright.fit.joints.verdict import Warmth
from wickwright.fit.rules import joint_finding

if TYPE_CHECKING:
    from wickwright.burn.predicting import Prediction
    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.joints.verdict import Joined
    from wickwright.terms.finding import Finding

__all__ = ["HotSeat", "hot_seat"]


@dataclass(frozen=True, slots=True)
class HotSeat:
    """How a chimney sits when its lamp burns.

    Attributes
    ----------
    gallery, chimney : Part
        What carries and what stands.
    warmth : Warmth
        Their temperatures at the seat [K], computed.
    joined : Joined
        The verdict at these temperatures; ``hot`` is the room left.
    finding : Finding
        The verdict as a finding, good ones too.
    """

    gallery: Part
    chimney: Part
    warmth: Warmth
    joined: Joined
    finding: Finding


def hot_seat(compiled: Compiled, assembly: Assembly, prediction: Prediction) -> HotSeat | None:
    """Judge the seat of a chimney at computed temperatures.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    assembly : Assembly
        The lamp.
    prediction : Prediction
        How it burns.

    Returns
    -------
    HotSeat or None
        None where the chimney stands on nothing.
    """
    pair = next((pair for pair in assembly.joints() if pair[1].part.kind == "chimney"), None)
    if pair is None or pair[1].on is None or pair[1].by is None:
        return None
    below, above = pair
    gallery, foot = seat_warmth(prediction)
    warmth = Warmth(carrier=gallery, stander=foot)
    joint = pair[1].on.joint
    settings = replace(compiled.settings, warm={**compiled.settings.warm, joint: warmth})
    judge = Joiner(settings, compiled.together)
    joined = judge.joined(below.part, pair[1].on, above.part, pair[1].by)
    finding = joint_finding(joined, joint, below.part, above.part)
    return HotSeat(below.part, above.part, warmth, joined, finding)
