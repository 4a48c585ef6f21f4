"""What is said where a lamp has no flame to compute, in words an adviser can read out."""

from __future__ import annotations

from wickwright.terms.finding import Rule

__all__ = ["RULES"]

RULES: tuple[Rule, ...] = (
    Rule(
        "flame-no-burner",
        "A lamp burns on a burner",
        "There is no burner on the lamp, so there is no flame to compute.",
        "Light, fuel and heat follow from the burner's air passages and its wick.",
        "Put a burner on the lamp, and ask again.",
        "practice",
        "A lamp that burns without one.",
    ),
    Rule(
        "flame-no-chimney",
        "A burner burns under a chimney",
        "{burner} has no chimney on it, so there is no draft to compute a flame from.",
        "The chimney's draft brings the air; without it the flame smokes.",
        "Put a chimney on the lamp, and ask again. Never light the burner without it.",
        "practice",
        "A clean flame on this burner without a chimney.",
    ),
    Rule(
        "flame-no-height",
        "The draft follows from the chimney's height",
        "The height of {chimney} is not in the book, so its draft is not known.",
        "Draft is proportional to height: without the height there is nothing to compute from.",
        "Measure it from foot to top, and write it in the table parts.",
        "draft",
        "A draft that does not depend on the height.",
    ),
    Rule(
        "flame-unmeasured",
        "A flame is computed from what was measured on its burner",
        "Nobody has measured {names} of {burner}, so how it burns is not known.",
        "The air a burner passes and the fuel its wick gives set the light; a general figure for "
        "both at once would be a guess.",
        "Measure them on the bench, and write them in the table flames.",
        "assumption",
        "A burner whose light is known without them.",
    ),
    Rule(
        "flame-bulb",
        "An electric burner has no flame",
        "{bulb} gives about {measured}, give or take {spread}, and needs no chimney to draw.",
        "A bulb's light follows from its watts: an assumption for filament bulbs.",
        "Fuel out of the font first; no stronger bulb than the lampholder states; wiring by the "
        "local electrical code.",
        "assumption",
        "A filament bulb measured to give a quarter more or less.",
    ),
    Rule(
        "flame-no-bulb",
        "An electric burner gives light by its bulb",
        "{burner} is electric and no bulb of known watts is in it, so its light is not known.",
        "A bulb's light follows from its watts.",
        "Put a bulb of the lampholder's cap in it, of no more watts than the holder states.",
        "assumption",
        "An electric burner that gives light without a bulb.",
    ),
)
"""Every rule on lamps without a flame to compute."""
