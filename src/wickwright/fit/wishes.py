"""What an ask of a wish means for a part. Wishes are rows of the book; this is all the code."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.catalogue.records import Ask, Lamp, Part
    from wickwright.fit.request import Situation

__all__ = ["MEASURED", "is_open", "passes", "resolved"]

MEASURED = frozenset({"height", "heat_rating", "material"})
"""Columns whose blank means that nobody knows; other blanks mean 'any' or 'still'."""


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


def is_open(part: Part, ask: Ask) -> bool:
    """Tell whether nobody can say if a part meets an ask.

    Parameters
    ----------
    part : Part
        The part.
    ask : Ask
        Already resolved.

    Returns
    -------
    bool
        True where the ask names the part's kind and a column of :data:`MEASURED` that is
        blank there. An ask about every part speaks only of those that have the figure.
    """
    return (
        ask.ask in ("only", "never")
        and ask.field in MEASURED
        and ask.kind == part.kind
        and bool(ask.value)
        and not any(_COLUMNS[ask.field](part))
    )


def passes(part: Part, ask: Ask, *, unsure: bool = False) -> bool:
    """Tell whether a part may be used under an ask.

    Parameters
    ----------
    part : Part
        The part.
    ask : Ask
        ``only``, ``never``, ``absent`` or ``service``, already resolved.
    unsure : bool
        What to answer where nobody can say (:func:`is_open`).

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
    if is_open(part, ask):
        return unsure
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
