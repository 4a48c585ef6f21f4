"""Words callers use for the dangers of a lamp.

They stand in the program and not in a table, so that no book takes one away; a book adds words
of its own in the column ``words`` of its signs, and by its complaints. Common practice, no
published source: whoever takes calls knows more of them, and adds them there.
"""

from __future__ import annotations

from itertools import product
from typing import Final

__all__ = ["ASKS", "NO_DOUBT"]

_VESSELS: Final = ("font", "fount", "tank", "reservoir", "oil vessel", "oil bowl", "seam")
_BROKEN: Final = ("crack", "split", "burst", "broken", "broke", "hole", "open")
_FUELS: Final = (
    *("gasoline", "petrol", "white gas", "camp fuel", "camping fuel", "stove fuel", "diesel"),
    *("lighter fluid", "paint thinner", "turpentine", "naphtha", "benzine", "methylated"),
    *("alcohol", "mineral spirits", "jet fuel", "biodiesel", "heating oil"),
)
_ILL: Final = ("dizzy", "sick", "ill", "unwell", "faint", "nauseous", "giddy", "drowsy")
_HAVING: Final = ("have", "has", "got", "get", "gets", "with")
_BURNING: Final = ("it", "flame", "lamp")
_FEELING: Final = ("feel", "feels", "feeling", "am", "are", "is")

ASKS: Final[dict[str, tuple[str, ...]]] = {
    "unwell": (
        *("headache", "head ache", "head hurts", "sore head", "dizzy", "giddy", "sick", "ill"),
        *("unwell", "nausea", "nauseous", "vomit", "threw up", "drowsy", "feel faint"),
        *("passed out", "fainted away", "unconscious", "cannot breathe", "hard to breathe"),
        *("monoxide", "alarm went off", "alarm goes off", "poisoned", "ambulance", "hospital"),
    ),
    "shock": ("shock", "tingle", "electrocuted", "bare wire", "wire is wet", "wet plug"),
    "outside-glass": (
        *("fire", "ablaze", "blaze", "explode", "explosion", "blew up", "in flames"),
        *("flame outside", "flame above", "flame out of the top", "flame over the glass"),
        *("flame shoots", "shoots up", "flares", "flame leaps", "burning table", "table burns"),
        *("curtain burns", "burning oil", "wall burns", "burnt the table", "scorched the table"),
    ),
    "no-answer": (
        *("knob does nothing", "nothing happens", "not turn down"),
        *("not go down", "not come down", "not go out", "not put it out", "not turn it off"),
        *("not shut off", "not stop burning", "not answer the knob", "out of control"),
        *("not control", "keeps burning", "not blow it out", "flame runs away"),
    ),
    "wet-font": (
        *("leak", "drip", "wet", "spill", "spilt", "seep", "ooze", "puddle", "soaked"),
        *("overflow", "oil on the table", "fuel on the table", "kerosene on the table"),
        *("paraffin on the table", "oil on the floor", "fuel on the floor", "loses oil"),
        *("loses fuel", "kerosene everywhere", "oil everywhere", "oil running down"),
    ),
    "cracked-font": tuple(f"{how} {what}" for how, what in product(_BROKEN, _VESSELS)),
    "wrong-fuel": (
        *_FUELS,
        *("gas", "wrong fuel", "wrong oil", "other fuel", "mixed fuel", "unmarked can"),
        *("spirits", "thinner", "vegetable oil", "cooking oil", "olive oil", "solvent"),
    ),
    "closed-room": (
        *("tent", "caravan", "camper", "motorhome", "boat", "yacht", "vehicle", "van", "car"),
        *("truck", "lorry", "closed room", "shut room", "sealed room", "windows shut"),
        *("windows closed", "no window", "no ventilation", "no air in the room", "stuffy"),
    ),
}
"""By danger, what makes the desk ask: every word of a phrase in one clause, in any order."""

NO_DOUBT: Final[dict[str, tuple[str, ...]]] = {
    "unwell": (
        *(
            f"{verb} {one}"
            for verb, one in product(_HAVING, ("headache", "a headache", "headaches"))
        ),
        *(f"{verb} {one}" for verb, one in product(_FEELING, _ILL)),
        *("head hurts", "head aches", "passed out", "alarm went off"),
    ),
    "outside-glass": (
        *("on fire", "caught fire", "in flames", "set fire to", "table is burning"),
        *("curtain is burning", "curtains are burning", "flame is outside", "flames outside"),
    ),
    "no-answer": (
        *("not turn down", "not turn it down", "not put it out", "not go down"),
        *(f"{what} {verb} not go out" for what, verb in product(_BURNING, ("will", "wo", "does"))),
    ),
    "wet-font": (
        *("it leaks", "lamp leaks", "font leaks", "tank leaks", "is leaking", "is dripping"),
        *("it drips", "oil on the table", "fuel on the table", "kerosene on the table"),
        *("dripping on", "leaking on"),
    ),
    "cracked-font": tuple(
        f"{what} {how}" for what, how in product(("font", "tank"), ("is cracked", "cracked"))
    ),
    "wrong-fuel": tuple(
        phrase.format(fuel)
        for fuel in _FUELS
        for phrase in (
            *("filled with {}", "filled it with {}", "filled the lamp with {}", "{} in it"),
            *("{} in the lamp", "{} in the tank", "{} in the font", "used {}", "burned {}"),
        )
    ),
}
"""By danger, what is told to stop at once, beside being asked: these words, one after the other."""
