"""What an ask of a wish means for a part. Wishes are rows of the book; this is all the code."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.catalogue.records import Ask, Lamp, Part
    from wickwright.fit.request import Situation

__all__ = ["passes", "resolved"]


def resolved(ask: Ask, lamp: Lamp, now: Situation) -> Ask:
    """Fill in what an ask says of the lamp itself.

    Parameters
    ----------
    ask : Ask
        With ``@from``, ``@to`` or ``@joint`` as its value.
    lamp : Lamp
        Whose years are meant.
    now : Situation
        Whose part of the kind is meant.

    Returns
    -------
    Ask
        With a plain value; blank where the lamp has none, and then it asks nothing.
    """
    match ask.value:
        case "@from":
            return replace(ask, value=str(lamp.first or ""))
        case "@to":
            return replace(ask, value=str(lamp.last or ""))
        case "@joint":
            mounted = now.now.of_kind(ask.kind)
            return replace(ask, value=mounted.by.joint if mounted and mounted.by else "")
        case _:
            return ask


def passes(part: Part, ask: Ask) -> bool:
    """Tell whether a part may be used under an ask.

    Parameters
    ----------
    part : Part
        The part.
    ask : Ask
        ``only``, ``never``, ``absent`` or ``service``, already resolved.

    Returns
    -------
    bool
        True when the ask says nothing of the part or is met by it.
    """
    if ask.ask == "service":
        return part.service is None or part.service.value == ask.value
    if ask.kind and part.kind != ask.kind:
        return True
    if ask.ask == "absent":
        return False
    if not ask.value:
        return True
    held = _held(part, ask)
    return held is None or held is (ask.ask == "only")


def _held(part: Part, ask: Ask) -> bool | None:
    """Whether the part's column passes the test; None where the column is blank."""
    texts = _COLUMNS[ask.field](part)
    if not any(texts):
        return None
    if ask.test in ("is", "in"):
        return not {text.lower() for text in texts}.isdisjoint(_words(ask))
    number, limit = float(texts[0]), _limit(ask)
    return number >= limit if ask.test == "at least" else number <= limit


def _limit(ask: Ask) -> float:
    """What a number is compared with; lengths carry their unit."""
    if ask.field == "height":
        return parse_dimension(ask.value).nominal
    return float(ask.value)


def _words(ask: Ask) -> set[str]:
    if ask.test == "is":
        return {ask.value.strip().lower()}
    return {word.strip().lower() for word in ask.value.split(",")}


_COLUMNS: dict[str, Callable[[Part], tuple[str, ...]]] = {
    "part": lambda part: (part.id,),
    "joint": lambda part: tuple(port.joint for port in part.stands),
    "from": lambda part: (str(part.first or ""),),
    "to": lambda part: (str(part.last or ""),),
    "height": lambda part: ("" if part.height is None else str(part.height),),
    "heat_rating": lambda part: ("" if part.heat_rating is None else str(part.heat_rating),),
    "service": lambda part: (part.service.value if part.service else "",),
    "light": lambda part: (str(part.light),),
    "status": lambda part: (part.status.value,),
    "material": lambda part: (part.material,),
    "style": lambda part: (part.style,),
}
"""A part's column as texts, by the name a wish gives it."""
