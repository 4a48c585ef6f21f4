"""What a lamp's room is held to, in words an adviser can read out."""

from __future__ import annotations

from wickwright.terms.finding import Rule

__all__ = ["RULES"]

_AIR_CURE = (
    "Open the door to the rest of the house, or a window; burn fewer lamps, or for less long."
)

RULES: tuple[Rule, ...] = (
    Rule(
        "room-co2",
        "Carbon dioxide stays low in the room",
        "With {sources}, carbon dioxide comes to {measured} after {duration}; by {limit} it "
        "should be {permitted}. Time until that is passed: {passed}.",
        "A lamp makes as much carbon dioxide as several people. Too much of it makes heads ache "
        "and minds slow, and it shows that the air is used up.",
        _AIR_CURE,
        "box",
        "A meter in the room that reads outside the range of volume and air change given.",
    ),
    Rule(
        "room-oxygen",
        "The room keeps its oxygen",
        "With {sources}, oxygen comes to {measured} after {duration}; by {limit} it should be "
        "{permitted}. Time until that is passed: {passed}.",
        "A flame short of oxygen dims and gives off carbon monoxide long before a person feels "
        "short of breath.",
        _AIR_CURE,
        "box",
        "A meter in the room that reads outside the range of volume and air change given.",
    ),
    Rule(
        "room-humidity",
        "The room does not get damp",
        "With {sources}, the humidity comes to {measured} after {duration} if nothing soaks it "
        "up; by {limit} it should be {permitted}. Time until that is passed: {passed}.",
        "Burning a litre of kerosene makes about a litre of water. It settles on cold walls and "
        "windows, and mold follows.",
        _AIR_CURE + " Warm the walls rather than the air.",
        "box",
        "A hygrometer that reads more than the humidity foretold: walls soak up, never give.",
    ),
    Rule(
        "room-closed",
        "The room is large and open enough for the lamps",
        "{volume} with {measured} is too little air for {sources}: to stay within {limit} "
        "({allowed}) it takes {permitted}. On a still day that is an opening {tall} tall, such as "
        "a door ajar, of {opening}.",
        "The air that comes in must carry off what the lamps and the people give to it.",
        "Open the door to the rest of the house or a tall window by that much or more, take a "
        "larger room, or burn fewer lamps. The air behind the opening must be fresh: a closed "
        "house fills up too.",
        "box",
        "A room of this size and air change whose air stays within the limit with these lamps.",
    ),
    Rule(
        "room-open-enough",
        "The room has air enough",
        "{volume} with {measured} is air enough for {sources} to stay within {limit} "
        "({allowed}): it takes {permitted}.",
        "The air that comes in carries off what the lamps and the people give to it.",
        "Nothing to do. A room that is shut up tighter another day is another room.",
        "box",
        "A room of this size and air change whose air passes the limit with these lamps.",
    ),
    Rule(
        "room-yardstick",
        "Yardstick: the fuel-gas code's least room",
        "The fuel-gas code would ask {permitted} for a gas appliance of {heat} ({method}); this "
        "room has {measured}. The rule was not written for lamps: a yardstick, not a permit.",
        "It is the nearest thing to a rule for rooms that has been tried for decades.",
        "Local codes come first. Where the room is smaller, open it to the next one.",
        "nfpa54",
        "A code that sets a room for oil lamps: then that one holds.",
    ),
    Rule(
        "room-flame-dims",
        "The room's air leaves the lamps their light",
        "With {sources} and the wicks turned down as far as the flames then need to stay clean, "
        "a lamp gives {measured} of its light in fresh air after {duration}, on {fuel}.",
        "A flame in spent air gets less oxygen with every breath of draft.",
        _AIR_CURE + " Turning the wick up instead lays carbon on the mantle.",
        "draft",
        "A light meter in the room that falls faster, or slower, with the same carbon dioxide.",
    ),
    Rule(
        "room-flame-carbon",
        "A lamp left alone keeps air to spare",
        "With {sources}, a lamp left as it was set has too little oxygen to burn clean after "
        "{passed}; after {duration} it lacks {measured} of the least.",
        "The air that was enough when the lamp was set is no longer enough in a closed room. "
        "Carbon settles, the flame runs up the chimney, and carbon monoxide comes off.",
        _AIR_CURE + " Set the wicks a little below their fullest, and look at the mantles often. "
        "Never leave a lit lamp alone.",
        "draft",
        "Clean mantles after an evening in a closed room, the wicks never touched.",
    ),
    Rule(
        "room-flame-out",
        "The room keeps enough oxygen for the flames",
        "With {sources}, the flames go out for want of oxygen after {measured}: below {least} "
        "of the air an oil flame does not burn.",
        "People are in danger long before: a dim flame in a closed room is a call to get out.",
        "Lamps out, everybody out, air in. Never burn a lamp in a closed small room.",
        "safety-lamp",
        "A kerosene flame that burns on in air of less oxygen.",
    ),
    Rule(
        "room-co-alarm",
        "Wherever a lamp burns there is a carbon monoxide alarm",
        "How much carbon monoxide a lamp gives off is not known: assumed {assumed} of the fuel, "
        "it would come to {measured} after {duration}; by {limit} it should be {permitted}.",
        "It has no smell and no colour, and it kills. A clean full flame makes little; one that "
        "is starved, blackened or in spent air makes much.",
        "Have a carbon monoxide alarm in the room and one where people sleep. When it sounds, "
        "or a head aches: lamp out, everybody out, call for help from outside.",
        "assumption",
        "Measured yields of such lamps, clean and starved, outside the assumed band.",
    ),
    Rule(
        "room-ventilation",
        "A room with a lamp is aired",
        "While a lamp burns, keep the door open to the rest of the house, or a window to outside "
        "open {permitted} with the door shut. Never sleep with it burning.",
        "All that the flame makes stays in the room until air carries it off.",
        "Follow the maker's leaflet and the local code first. Air the room well afterwards.",
        "cpsc5052",
        "A room with a burning lamp that stays fresh with everything shut.",
    ),
    Rule(
        "above-near",
        "What is above the lamp stays cool enough",
        "The {thing} ({material}) is {distance} above the chimney: the gas is {measured} there "
        "({how}). It should be {permitted}: {why}.",
        "The gas leaves the chimney hot enough to light paper, and wood kept warm for years "
        "lights at far less heat than fresh wood.",
        "Keep {needed} or more above the chimney's top, or hang a bell between that is made for "
        "this lamp. Local codes and the maker's leaflet come first.",
        "nureg1805",
        "A thermometer on the thing that reads outside this range after two hours.",
    ),
    Rule(
        "above-clear",
        "What is above the lamp stays cool enough",
        "The {thing} ({material}) is {distance} above the chimney: the gas is {measured} there "
        "({how}). It should be {permitted}: {why}.",
        "The three published laws agree that it stays below the limit.",
        "Nothing to do. {needed} or more must stay free above the chimney's top.",
        "nureg1805",
        "A thermometer on the thing that reads above the limit after two hours.",
    ),
    Rule(
        "above-small-fire",
        "The plume laws were made for larger fires",
        "The heat above the lamp is reckoned by laws fitted to fires of {permitted}; this lamp "
        "is {measured}. Half a metre up they differ by {spread}.",
        "A formula outside the fires it was fitted to may be wrong by more than its spread.",
        "Keep the larger distance, and measure with a thermometer where it matters.",
        "assumption",
        "Temperatures measured above a lamp of this heat.",
    ),
    Rule(
        "beside-near",
        "What is beside the lamp stays cool enough",
        "The {thing} ({material}) is {distance} from the mantle: it warms to {measured} there. "
        "It should be {permitted}: {why}.",
        "Cloth and paper dry out, brown and light. A draught can carry a curtain nearer.",
        "Keep {needed} or more from the mantle, and tie curtains back. Local codes and the "
        "maker's leaflet come first.",
        "nureg1805",
        "A thermometer on the thing that reads outside this range after two hours.",
    ),
    Rule(
        "beside-clear",
        "What is beside the lamp stays cool enough",
        "The {thing} ({material}) is {distance} from the mantle: it warms to {measured} there. "
        "It should be {permitted}: {why}.",
        "Radiation falls with the square of the distance.",
        "Nothing to do. {needed} or more must stay free beside the mantle.",
        "nureg1805",
        "A thermometer on the thing that reads above the limit after two hours.",
    ),
    Rule(
        "rated",
        "A shade or bell stands the heat its maker states",
        "The {thing} is rated for {permitted}; the lamp gives off {measured}.",
        "A maker who states a rating has tried the thing over a flame.",
        "Above the rating, take one rated for {measured} or more.",
        "book",
        "A thing within its rating that scorches, or one above it that lasts a season.",
    ),
)
"""Rules of the room, of what is above the lamp and of what is beside it."""
