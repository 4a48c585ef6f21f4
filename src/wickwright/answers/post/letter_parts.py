"""What all letters to callers are put together from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.catalogue.records import Service
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickwright.burn.error_bars import Estimate
    from wickwright.catalogue.records import Lamp
    from wickwright.fit.compiled import Compiled
    from wickwright.terms.units import Units

__all__ = [
    "about",
    "bulleted",
    "call_again",
    "half_or_double",
    "lamps_listed",
    "letter",
    "listed",
    "money",
    "quoted",
    "telephone",
]

_CALL_AGAIN: Final[Mapping[Service, str]] = {
    Service.OIL: (
        "Call us{number} before you go on if a part does not go on by itself, or the lamp smokes, "
        "soots or smells. If anyone's head aches: lamp out, everybody into the fresh air."
    ),
    Service.ELECTRIC: (
        "Call us{number} before you go on if a part does not go on by itself. If anything smells, "
        "buzzes or gets too hot to touch: plug out, and call us."
    ),
}
"""The end of a letter that goes with parts, by what gives the light."""
_TENS: Final = 10.0
_WIDE: Final = 0.4
"""Share of a figure from which its standard uncertainty is said as half or double [-]."""
_LONGEST_QUOTE: Final = 30
"""Of a long story so many words are told back [-]."""


def telephone(compiled: Compiled) -> str:
    """Return the maker's telephone number; blank where the book has none."""
    return " ".join(compiled.book.about.get("telephone", "").split())


def call_again(compiled: Compiled, service: Service) -> str:
    """Return the end of a letter that goes with parts, with the number to call.

    Parameters
    ----------
    compiled : Compiled
        The fit book, which knows the maker's telephone.
    service : Service
        What gives the light.

    Returns
    -------
    str
        Two sentences.
    """
    number = telephone(compiled)
    return _CALL_AGAIN[service].format(number=f" ({number})" if number else "")


def lamps_listed(lamps: Sequence[Lamp]) -> str:
    """Return models by name and number, with commas between."""
    return listed([f"{lamp.name} ({lamp.id})" for lamp in lamps])


def letter(compiled: Compiled, paragraphs: Sequence[str], caller: str, adviser: str) -> str:
    """Put a greeting before paragraphs and a farewell behind them.

    Parameters
    ----------
    compiled : Compiled
        The fit book, which knows the maker's name.
    paragraphs : sequence of str
        Blank ones are left out.
    caller, adviser : str
        Names; may be blank.

    Returns
    -------
    str
        The letter, ended by a line break.
    """
    head = f"Dear {' '.join(caller.split())}," if caller.strip() else "Hello,"
    foot = "\n".join(
        filter(
            None, ("With kind regards", " ".join(adviser.split()), compiled.book.about.get("maker"))
        )
    )
    return "\n\n".join([head, *filter(None, paragraphs), foot]) + "\n"


def bulleted(head: str, texts: Sequence[str]) -> str:
    """Return a list under a head; blank where there is nothing to list."""
    return "\n".join([head, *(f"  - {text}" for text in texts)]) if texts else ""


def listed(names: Sequence[str]) -> str:
    """Return names with commas between."""
    return ", ".join(names)


def money(amount: int, units: Units) -> str:
    """Say an amount of money."""
    return say(Quantity(amount, Kind.MONEY), units)


def about(light: Estimate, units: Units) -> str:
    """Say a light to the tens of lumens, and how far it may be off: it is not known better."""
    rounded = round(light.value / _TENS) * _TENS
    said = f"{say(Quantity(rounded, light.kind), units)} of light"
    return (
        f"{said}; it may be half or double of that"
        if half_or_double(light.value, light.spread)
        else said
    )


def half_or_double(value: float, spread: float) -> bool:
    """Tell whether a figure is so doubtful that half or double of it would be no surprise.

    Parameters
    ----------
    value, spread : float
        The figure and its standard uncertainty, in one unit.

    Returns
    -------
    bool
        True from a spread of two fifths of the value.
    """
    return spread >= _WIDE * abs(value)


def quoted(told: str) -> str:
    """Return what a caller said in quotation marks, a long story with its end left out."""
    words = told.split()
    more = " ..." if len(words) > _LONGEST_QUOTE else ""
    return f'"{" ".join(words[:_LONGEST_QUOTE])}{more}"'
