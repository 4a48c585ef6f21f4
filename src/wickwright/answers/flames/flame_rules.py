"""What is said of the flames of routes and of lamps without one, to be read out."""

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
        "flame-refused",
        "A flame is computed from figures that can be",
        "How {burner} burns under {chimney} is not known: {refusal}.",
        "A figure that cannot be would give a flame that cannot be.",
        "Correct the parts in the tables parts and flames.",
        "assumption",
        "A part measured to be so.",
    ),
    Rule(
        "flame-gain",
        "What a change of parts does to the light",
        "About {measured} {more} light than before, give or take {spread}, for {fuel} {burnt} "
        "fuel.",
        "Draft brings the air, and the air decides how far the wick may be turned up before "
        "carbon forms. Both flames are taken at their fullest, in the same room.",
        "Weigh the light against the fuel and the heat.",
        "draft",
        "The two measured side by side, wicks at their fullest, with another gain.",
    ),
    Rule(
        "flame-gain-free",
        "What a change of parts does to the light, the fuel unchanged",
        "About {measured} {more} light than before, give or take {spread}, for the same fuel.",
        "Mantle and spreader change how much of the flame's heat becomes light.",
        "Weigh the light against the price.",
        "assumption",
        "The two measured side by side, wicks at their fullest, with another gain.",
    ),
    Rule(
        "flame-mark-carbon",
        "The mark of the wick is right where the air is",
        "With the wick at its mark ({fuel}) {burner} has {measured} of the air it needs here; "
        "carbon begins below {permitted}.",
        "The mark was set for thicker air or a taller chimney. Without air to spare, carbon "
        "settles on the mantle, and the flame can run up the chimney: a fire, and carbon "
        "monoxide.",
        "Keep the wick below its mark: {fullest} burns clean here. Turn down at the first dark "
        "spot, and have a carbon monoxide alarm.",
        "assumption",
        "A mantle that stays clean for an evening with the wick at its mark.",
    ),
    Rule(
        "flame-mark-near",
        "There is some air to spare at the mark",
        "With the wick at its mark {burner} has {measured} more air here than the least that "
        "burns clean; the figure is known to {spread}, so carbon may form.",
        "A draught, an uneven wick or an old chimney takes up so small a reserve.",
        "Look at the mantle after ten minutes, and turn down at the first dark spot.",
        "assumption",
        "A season of clean mantles with the wick at its mark.",
    ),
    Rule(
        "flame-seat-easier",
        "A plain seat is easier on hot glass than a quarter-turn one",
        "The plain seat of {other} pulls the glass with {measured} here, the quarter-turn seat of "
        "{chimney} with {before}. Assumed: in the one, {assumed}; in the other, {assumed_before}.",
        "Lugs that do not give press back on the glass what the hot seat took up. Spring fingers "
        "press with no more than their own force.",
        "Take the plain-foot seat where there is a choice, and turn no glass while it is hot.",
        "practice",
        "As many broken chimneys from plain seats as from quarter-turn ones.",
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
"""Every rule on the flames of routes, and on lamps without a flame to compute."""
