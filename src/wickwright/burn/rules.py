"""What is said about a flame, in words an adviser can read out."""

from __future__ import annotations

from wickwright.terms.finding import Rule

__all__ = ["RULES"]

RULES: tuple[Rule, ...] = (
    Rule(
        "burn-starved",
        "A lamp high up has air enough",
        "{chimney} starves {burner} here: its fullest clean flame gives {measured} of the {light} "
        "it gives at sea level under {under}; permitted: {permitted}.",
        "Thin air makes less draft, and each breath of it holds less oxygen. The flame is dim, "
        "and an owner who turns it up to make good lays carbon on the mantle.",
        "Take a taller chimney, where one is made for this burner; under the tallest, live with "
        "less light. Turn the wick up no further than it burns clean, and have a carbon monoxide "
        "alarm in the room.",
        "draft",
        "A lamp at this elevation whose measured light is near that at sea level.",
    ),
    Rule(
        "burn-taller-unneeded",
        "A taller chimney is worth its price only where the flame is short of air",
        "The wick gives out before the air does: {air} of air is drawn at the fullest flame, "
        "{measured} more than it needs to burn clean. A taller chimney would add no light.",
        "More draft than the wick has fuel for only cools the flame.",
        "Keep {chimney}.",
        "assumption",
        "A taller chimney that gives measurably more light on this burner.",
    ),
    Rule(
        "burn-brighter",
        "What another chimney is worth here",
        "{other} gives {light} more light than {chimney} for {measured} more fuel.",
        "A taller chimney pulls more air; the wick can then be turned up further before carbon "
        "forms.",
        "Weigh the light against the fuel: {hours} on one filling.",
        "draft",
        "The two measured side by side, wicks at their fullest, and no brighter.",
    ),
    Rule(
        "burn-carbon",
        "The wick is no higher than the air allows",
        "At this setting ({fuel}) {burner} has {air} of the air it needs; carbon begins below "
        "{permitted}. The light given is that of the first minutes, before it does.",
        "Without air to spare, carbon settles on the mantle and shades the flame, which then "
        "runs up the chimney: a fire, and carbon monoxide.",
        "Turn the wick down to {fullest} or less. Carbon on the mantle burns off at a low flame; "
        "never leave it.",
        "assumption",
        "A mantle that stays clean for an evening with the wick set higher.",
    ),
    Rule(
        "burn-carbon-near",
        "There is some air to spare",
        "At this setting {burner} has {measured} more air than the least that burns clean; the "
        "figure is known to {spread}, so carbon may form.",
        "A draught, an uneven wick or an old chimney takes up so small a reserve.",
        "Turn the wick a little lower, and look at the mantle after ten minutes.",
        "assumption",
        "A season of clean mantles at this setting.",
    ),
    Rule(
        "burn-glass-heat",
        "The flame's heat stays within the glass's rating",
        "{burner} gives off {measured} here; {chimney} is rated for {permitted}.",
        "Glass beyond its rating cracks, at once or after weeks.",
        "Take a chimney rated for {measured} or more, or turn the wick down.",
        "book",
        "A chimney that lasts a season beyond its stated rating.",
    ),
    Rule(
        "burn-glass-hot",
        "The glass stays below what this kind stands",
        "The hottest glass of {chimney} comes to {measured}; {material} stands {permitted} for a "
        "short time.",
        "Hotter glass loses its shape or its temper. Hot glass burns skin at a touch long before.",
        "Turn the wick down; let the lamp cool before you touch it.",
        "assumption",
        "A thermometer on the glass that reads otherwise.",
    ),
    Rule(
        "burn-glass-stress",
        "Glass has strength to spare",
        "{case}: {chimney} ({material}) comes to {measured}; used glass is taken to stand "
        "{permitted}. Assumed: {assumed}.",
        "Glass breaks where it is pulled. Heat that is uneven, sudden or held by a rigid seat "
        "pulls it; the lower grade grows nearly three times as much.",
        "{advice}",
        "assumption",
        "A hundred chimneys that outlast this case, or new ones that do not.",
    ),
    Rule(
        "burn-run-time",
        "How long a filling lasts",
        "A full font lasts {measured}, give or take {spread}, at {fuel} ({volume}).",
        "A font must never run dry under a lit wick, and never be filled while the lamp is lit.",
        "Put the lamp out and let it cool before you fill it.",
        "book",
        "A full font that is empty sooner.",
    ),
    Rule(
        "burn-assumed",
        "What nobody measured is assumed, and said",
        "{part}: the book has no figure for {names}. General figures with wide bands were taken.",
        "Every error bar here is the wider for it.",
        "Measure these on the bench and write them in the table flames.",
        "assumption",
        "The same answers after the parts were measured.",
    ),
    Rule(
        "burn-range",
        "A formula is used where it was tried",
        "{formula} was tried for {argument} {permitted}; here it is {value}.",
        "Beyond its range a formula is a guess.",
        "Trust the figures that lean on it less than their error bars say.",
        "assumption",
        "A measurement there that agrees.",
    ),
    Rule(
        "burn-unsettled",
        "A flame that keeps burning",
        "{burner} draws too little air under {chimney} to keep a flame: draft and losses find no "
        "balance.",
        "A column that gives its heat to the glass faster than it rises pulls no air.",
        "Take a taller chimney, or check the figures of the burner's passages.",
        "draft",
        "The lamp burning so.",
    ),
    Rule(
        "burn-no-mantle",
        "A mantle burner carries a mantle",
        "{burner} has no mantle: its flame is blue and gives next to no light.",
        "The mantle gives the light; the flame only heats it.",
        "Put a mantle of this burner's size on it.",
        "practice",
        "A bright flame on this burner without a mantle.",
    ),
    Rule(
        "burn-care",
        "A lit lamp is an open fire",
        "{burner} gives off {measured} and uses the air of the room.",
        "Flames take oxygen and give off carbon dioxide, water and, when they burn badly, carbon "
        "monoxide, which nobody smells.",
        "Let air in, have a carbon monoxide alarm, burn only clear low-sulphur kerosene, never "
        "leave a lit lamp alone, keep clear of the hot glass. Local codes and the maker's leaflet "
        "come first.",
        "cpsc5052",
        "A flame that gives off nothing but light.",
    ),
)
"""Every rule of the flame."""
