"""Comparing what must be the same on both sides: form, hand, lugs, angle, pitch, cap.

Each comparison answers a :class:`Joined` (does not fit) where the two differ, or the names of
the measurements that are missing, ``()`` when there are none. Where only one side is blank,
the blank side is missing. Where both are blank, the comparison is left out, unless the joint
cannot be judged without it (``needed``): a thread without pitch, a bayonet without lugs, arms
without their number, a bulb without a cap.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickwright.fit.joints.grade import NO_BORDER
from wickwright.fit.joints.verdict import Fit, Joined

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from wickwright.catalogue.records import Port

    Compared = Joined | tuple[str, ...]
    Match = Callable[[Port, Port], Compared]

__all__ = ["angle", "compared", "differ", "lugs", "pitch", "word"]


def differ(why: str, carrier: str, stander: str) -> Joined:
    """Return 'does not fit' with the two words that differ."""
    return Joined(Fit.NOT, why, words={"carrier": carrier, "stander": stander})


def _blank(column: str, one: object, other: object, *, needed: bool) -> tuple[str, ...]:
    """Name the blank sides; called when at least one is blank."""
    if one is None and other is None and not needed:
        return ()
    sides = (("carrier", one), ("stander", other))
    return tuple(f"{side} {column}" for side, value in sides if value is None)


def _text(port: Port, column: str) -> str | None:
    """Return the word without blanks around it, None where there is none."""
    return port.words.get(column, "").strip() or None


def word(column: str, *, why: str = "", needed: bool = False) -> Match:
    """Make a comparison of a word; capitals and blanks around it do not count.

    Parameters
    ----------
    column : str
        Column of both ports.
    why : str
        Reason given where they differ; blank means the column.
    needed : bool
        Whether a word blank on both sides counts as missing.

    Returns
    -------
    Match
        The comparison.
    """

    def same_word(carrier: Port, stander: Port) -> Compared:
        plain = carrier.words.get(column)
        if plain is not None and plain == stander.words.get(column) and plain.strip():
            return ()  # by far the most frequent case
        one, other = _text(carrier, column), _text(stander, column)
        if one is None or other is None:
            return _blank(column, one, other, needed=needed)
        if one.casefold() == other.casefold():
            return ()
        return differ(why or column, one, other)

    return same_word


def pitch(share: float) -> Match:
    """Make a comparison of thread pitches.

    Parameters
    ----------
    share : float
        How far they may differ, as a share of the greater.

    Returns
    -------
    Match
        The comparison; it needs both pitches.
    """

    def same_pitch(carrier: Port, stander: Port) -> Compared:
        one, other = carrier.sizes.get("pitch"), stander.sizes.get("pitch")
        if one is None or other is None:
            return _blank("pitch", one, other, needed=True)
        off = abs(one.nominal - other.nominal)
        if off <= share * max(one.nominal, other.nominal) + NO_BORDER:
            return ()
        return differ("pitch", one.text, other.text)

    return same_pitch


def lugs(carrier: Port, stander: Port) -> Compared:
    """Compare the numbers of lugs; both are needed."""
    one, other = carrier.numbers.get("lugs"), stander.numbers.get("lugs")
    if one is None or other is None:
        return _blank("lugs", one, other, needed=True)
    return () if one == other else differ("lugs", f"{one:g}", f"{other:g}")


def angle(within: float) -> Match:
    """Make a comparison of the angles from entry to lock.

    Parameters
    ----------
    within : float
        How far they may differ [rad].

    Returns
    -------
    Match
        The comparison; left out where both are blank.
    """

    def same_angle(carrier: Port, stander: Port) -> Compared:
        one, other = carrier.numbers.get("angle"), stander.numbers.get("angle")
        if one is None or other is None:
            return _blank("angle", one, other, needed=False)
        if abs(one - other) <= within + NO_BORDER:
            return ()
        return differ("angle", f"{math.degrees(one):g}°", f"{math.degrees(other):g}°")

    return same_angle


def compared(carrier: Port, stander: Port, matches: Iterable[Match]) -> Compared:
    """Make every comparison.

    Parameters
    ----------
    carrier, stander : Port
        The two sides.
    matches : iterable of Match
        The joint's comparisons, weightiest first.

    Returns
    -------
    Joined or tuple of str
        The first difference found, whatever else is missing; else all missing measurements.
    """
    missing: tuple[str, ...] = ()
    for match in matches:
        found = match(carrier, stander)
        if isinstance(found, Joined):
            return found
        if found:
            missing += found
    return missing
