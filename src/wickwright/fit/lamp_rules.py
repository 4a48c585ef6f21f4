"""The rules a whole lamp is held to, in words an adviser can read out."""

from __future__ import annotations

from wickwright.terms.finding import Rule

__all__ = ["RULES"]

RULES: tuple[Rule, ...] = (
    Rule(
        "incomplete",
        "Every required port is filled",
        "{carrier} needs a {kinds} and has none.",
        "Without it the lamp cannot burn, or burns badly and dangerously.",
        "Add a {kinds} that fits {carrier}.",
        "book",
        "A lamp that burns well for an evening with the port empty.",
    ),
    Rule(
        "needs",
        "A lamp has what its form needs",
        "{lamp} is not complete without a {kinds}.",
        "A hanging or bracket lamp without its bell scorches what is above it.",
        "Add a {kinds} that fits.",
        "book",
        "A lamp of this model that was sold complete without it.",
    ),
    Rule(
        "no-place",
        "Every part has something to stand on",
        "{part} has nothing to stand on: nothing here takes a {kinds}.",
        "A part sent without what carries it cannot be used.",
        "Add what carries a {kinds} ({carriers}), or leave {part} out.",
        "book",
        "The part mounted and holding on the parts listed.",
    ),
    Rule(
        "twice",
        "A lamp carries at most one part of a kind",
        "{part} is a second {kinds} beside {other}.",
        "There is one place for it.",
        "Leave one of the two out.",
        "book",
        "A lamp that carries both in service.",
    ),
    Rule(
        "ask-unknown",
        "A figure that a wish asks for and nobody knows is measured first",
        "Whether it is so that {says} is not known: the {column} of {part} is blank in the "
        "fit book.",
        "A blank may stand for any figure: the part may be the very thing the caller does not "
        "want.",
        "Find out the {column} of {part}, and enter it in the fit book.",
        "book",
        "Every part with a blank turning out to be as the wish asks.",
    ),
    Rule(
        "other-form",
        "A new base makes the same form of lamp",
        "{part} {makes}; this is a {form} lamp.",
        "A lamp on another base stands or hangs elsewhere, needs other room around it, and may "
        "need a bell.",
        "Ask the caller whether it may become another lamp, and where it is to stand.",
        "book",
        "A lamp of this model that was sold on that base.",
    ),
    Rule(
        "not-on-it",
        "What is named as lost was on the lamp",
        "{part} is named as lost, but was not on the {lamp}: {there}; {effect}.",
        "A part that was never on the lamp is a slip of the pen, or it is another lamp.",
        "Ask the caller again which part is gone; name what else is on the lamp.",
        "book",
        "A lamp of this model, as the caller has it, that carried the part.",
    ),
    Rule(
        "named-twice",
        "One part of each kind is named as on the lamp",
        "{part} and {other} are both named as on the lamp; a lamp carries one {kinds}, and "
        "{other}, named last, is taken to be on it.",
        "There is one place for it.",
        "Leave out the one that is not on the lamp.",
        "book",
        "A lamp that carries both in service.",
    ),
    Rule(
        "heat",
        "What stands in the heat is rated for it",
        "{part} is rated for {permitted}; {burner} gives off {measured}.",
        "Glass that is not heat-rated cracks without warning, and a shade made for a bulb or a "
        "flat-wick lamp scorches, melts or catches fire over a mantle flame.",
        "Take one rated for {measured} or more. Never try it 'for an evening'.",
        "book",
        "A part that lasts a season in heat above its stated rating.",
    ),
    Rule(
        "heat-unknown",
        "A heat rating that is not stated counts as not known",
        "{part} states no heat rating; {burner} gives off {measured}.",
        "What looks like heat-rated glass may be the lower grade.",
        "Ask the maker for the rating of {part}, or take one that states it.",
        "book",
        "Every part without a stated rating turning out to be heat-rated.",
    ),
    Rule(
        "draft",
        "The chimney is tall enough for the burner at this elevation",
        "{part} is {measured} tall; at {elevation} {burner} needs {permitted}.",
        "Draft is proportional to the chimney's height and to the air pressure. A starved flame "
        "is dim, lays carbon on the mantle and gives off carbon monoxide.",
        "Take a taller chimney for this burner, and have a carbon monoxide alarm in the room.",
        "draft",
        "A lamp with a chimney shorter than this that burns full and clean at this elevation.",
    ),
    Rule(
        "draft-unknown",
        "A chimney whose height is not known cannot be judged at an elevation",
        "The height of {part} is not known; at {elevation} {burner} needs {permitted}.",
        "A short chimney starves the flame, the more so the higher the place.",
        "Measure {part} from the foot to the top.",
        "draft",
        "A rule for draft that does not need the height.",
    ),
    Rule(
        "tips",
        "A lamp does not tip on a slope",
        "The lamp tips at {measured} when the font is {fill}; {permitted} is required.",
        "A lamp that is knocked over spills burning oil. Weight high above a small foot tips it.",
        "Choose a lighter or lower shade, or a lamp with a wider or heavier foot.",
        "ul153",
        "A lamp below the limit that stays upright on the slope, turned every way.",
    ),
    Rule(
        "stands",
        "A lamp stands safely on a slope",
        "The lamp stands up to {measured}, at its worst with the font {fill}; "
        "{permitted} is required.",
        "A lamp that is knocked over spills burning oil.",
        "Nothing to do. Keep it on a level, steady place all the same.",
        "ul153",
        "A lamp above the limit that falls on the slope.",
    ),
    Rule(
        "unweighed",
        "A lamp whose parts are not weighed cannot be judged for tipping",
        "Mass or centre of mass is not known for {part}, so it is not known whether the lamp tips.",
        "A heavy part high up tips a lamp.",
        "Weigh {part} and find where it balances, and enter both in the fit book.",
        "statics",
        "A way to judge balance without masses.",
    ),
    Rule(
        "oil-and-electric",
        "Fuel and electricity are never mixed in one lamp",
        "{part} belongs to {service} service; {other} does not.",
        "A bulb over a font with fuel in it, or a flame beside wiring, sets the lamp on fire.",
        "Keep to one service. For a bulb: fuel out, font cleaned and aired, wiring by the local "
        "electrical code.",
        "practice",
        "A code that permits both in one lamp.",
    ),
    Rule(
        "dying",
        "What is sold while stocks last may not be there next time",
        "{part} is sold while stocks last ({stock} left).",
        "A lamp that depends on it cannot be kept going.",
        "Say so to the caller, and offer the part that replaces it: {successor}.",
        "book",
        "The part being made again.",
    ),
    Rule(
        "dead",
        "What is no longer made cannot be sent",
        "{part} cannot be had: {reason}.",
        "It is not on the shelf and will not be.",
        "{successor}",
        "book",
        "The part being made again, or stock found.",
    ),
)
"""Rules of the whole lamp."""
