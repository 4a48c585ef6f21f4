"""What callers of the benchmark want."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import Ask, Wish

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["RENEWED", "wishes"]

RENEWED = (
    "chimney",
    "mantle",
    "wick",
    "burner",
    "gallery",
    "shade",
    "holder",
    "spreader",
    "bell",
    "bulb",
    "font",
    "tool",
)
"""Kinds a caller may want a new one of."""

_SHADES = ("glass", "cloth", "parchment")


def wishes() -> Iterator[Wish]:
    """Yield every wish."""
    for kind in RENEWED:
        yield Wish(f"renew-{kind}", f"A new {kind}", (Ask("renew", kind),))
    shade = Ask("present", "shade")
    yield Wish("add-shade", "A shade of any kind", (shade,))
    for material in _SHADES:
        of_it = Ask("only", "shade", "material", "is", material)
        yield Wish(f"add-{material}-shade", f"A {material} shade", (shade, of_it))
    yield Wish("brighter", "More light", (Ask("brighter", value="10"),))
    chimney = Ask("present", "chimney")
    made = [Ask("only", kind, "status", "is", "made") for kind in ("chimney", "gallery")]
    yield Wish("current-seat", "A chimney that can be had again", (chimney, *made))
    electric = (Ask("service", value="electric"), Ask("present", "bulb"))
    yield Wish("to-electric", "Run it on a bulb", electric)
    yield Wish("suit-place", "Right for where the lamp stands", (chimney,))
