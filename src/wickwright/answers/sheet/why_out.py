"""Why a way out buys parts that nobody asked for: what is wrong with the lamp as it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.words.wording import sentence
from wickwright.fit.audit import audit
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.terms.units import Units

__all__ = ["wrong_already"]


def wrong_already(compiled: Compiled, now: Situation, units: Units) -> tuple[str, ...]:
    """Say what is wrong with a lamp before anything is done to it.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    now : Situation
        What the caller has, and where.
    units : Units
        For words.

    Returns
    -------
    tuple of str
        Sentences, the gravest first; a way to what is wanted has to put these right too.
    """
    lamp = compiled.book.lamps[now.request.lamp]
    found = audit(now.now, lamp, now.request.place, compiled.joiner)
    faults = [one for one in found if one.severity >= Severity.FAULT]
    ranked = sorted(faults, key=lambda one: -one.severity)
    return tuple(sentence(one, units).says for one in ranked)
