"""The dangers of a lamp that burns badly, and what is done about each before anything else.

They stand in the program and not in a table, so that no book, setting or learning can take
one away.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickwright.catalogue.call_records import DANGERS

__all__ = ["GUARDS", "NEVER", "NEVER_LIVE", "Guard"]

NEVER: Final = (
    "Do not blow down the chimney, and do not carry the lamp while it burns.",
    "Do not fill or relight it while it is hot.",
    "Fire outside the lamp: smother it with a lid, a wet blanket or earth; never water on oil.",
    "If it is not out at once, get everybody out and call the fire brigade.",
)
"""Said with every danger (source keys ``armyps669``, ``practice``)."""

NEVER_LIVE: Final = (
    "Do not touch the lamp, its cord or anything wet or of metal it stands on.",
    (
        "Do not touch anybody who is held by the current before it is off; then call the emergency "
        "number."
    ),
    (
        "Never water on anything under current. If it smokes or burns, get everybody out and call "
        "the fire brigade."
    ),
)
"""Said with a danger of current (source key ``practice``)."""

_OUT = "Turn the flame down until it is out, if that can be done without reaching over the glass."
_COOL = "Leave the lamp where it stands for 30 minutes, until all of it is cold to the hand."
_AIR = "Open doors and windows."


@dataclass(frozen=True, slots=True)
class Guard:
    """What is done about one danger.

    Attributes
    ----------
    danger : str
        Key of :data:`wickwright.catalogue.call_records.DANGERS`.
    asks : str
        The question that finds it out.
    tells : tuple of str
        What the caller is told at once, in order.
    clears : str
        What must be so before the lamp may be lit again, as the caller confirms it; blank
        where no telephone call can settle it and the lamp goes to the bench.
    why : str
        Why it is asked.
    flame, bulb : bool
        Whether it is asked about a lamp with a flame, and about one with a bulb.
    never : tuple of str
        What is never done about it.
    mended_by : str
        Kind of part that makes it good when it is new; blank where none does.
    """

    danger: str
    asks: str
    tells: tuple[str, ...]
    clears: str
    why: str
    flame: bool = True
    bulb: bool = False
    never: tuple[str, ...] = NEVER
    mended_by: str = ""


GUARDS: Final[dict[str, Guard]] = {
    guard.danger: guard
    for guard in (
        Guard(
            "unwell",
            "Does anyone in the room have a headache, feel dizzy or sick?",
            (
                "Everybody out into fresh air now, also children and animals. Leave the lamp.",
                "Call the emergency number and say carbon monoxide. Do not go back in.",
                "This call can wait.",
            ),
            "everybody has been seen by a doctor or is well again, the place has been aired, a "
            "carbon monoxide alarm hangs in the room, and somebody competent says it may be used",
            "a lamp that burns badly can give off carbon monoxide, which nobody smells",
        ),
        Guard(
            "shock",
            "Has anyone felt a tingle or a shock from it, or is its wiring bare or wet?",
            (
                "Nobody touches the lamp or its cord.",
                (
                    "Switch its current off at the breaker; or pull the plug, if it can be reached "
                    "dry and without touching the lamp."
                ),
                "Leave it off. A licensed electrician, or our bench, sees to lamp and socket.",
            ),
            "the current is off, and a licensed electrician has mended lamp or wiring and says "
            "it may be used",
            "a shock from a lamp can kill, and bare or wet wiring can set fire to it",
            flame=False,
            bulb=True,
            never=NEVER_LIVE,
        ),
        Guard(
            "outside-glass",
            "Is there flame outside the glass, or does it shoot up above it?",
            (_OUT, "If it will not go down, smother the chimney's top with a metal lid.", _COOL),
            "the flame is out, the lamp is cold, and nothing around it has burned",
            "a flame outside the glass sets fire to what it reaches",
        ),
        Guard(
            "no-answer",
            "Does the flame stay as it is when the knob is turned down?",
            ("Smother the chimney's top with a metal lid until the flame is out.", _COOL),
            "",
            "a flame that cannot be turned down has to be smothered before it grows",
            mended_by="burner",
        ),
        Guard(
            "wet-font",
            "Is the font, or the table under it, wet with fuel?",
            (_OUT, _COOL, "No flame and no spark near it. Wipe it dry; take the rags outdoors."),
            "the lamp is out and cold, wiped dry, and has stayed dry on paper for 20 minutes",
            "fuel outside the font can catch fire",
            bulb=True,
        ),
        Guard(
            "cracked-font",
            "Is the font cracked, or its seam open?",
            (_OUT, _COOL, "Empty it outdoors into a fuel can. It must not be lit again."),
            "",
            "a cracked font can let go while the lamp burns",
            mended_by="font",
        ),
        Guard(
            "wrong-fuel",
            "Could there be anything but clear lamp kerosene in it: petrol, camp fuel, a mix, "
            "something from an unmarked can?",
            (
                _OUT,
                "Petrol in a lamp explodes. Everybody away from it until it is cold.",
                _COOL,
                "Empty it outdoors, away from flame, into a can marked for waste fuel.",
            ),
            "font emptied outdoors, rinsed twice with fresh clear kerosene, wick washed in it or "
            "renewed, and filled from a marked can",
            "petrol or camp fuel in a lamp can explode",
        ),
        Guard(
            "closed-room",
            "Does it burn in a tent, a vehicle, a boat's cabin or a room with all shut?",
            (_OUT, _AIR, "Go outside until the air is fresh."),
            "the lamp stands in a room with a door or window that is kept ajar, and a carbon "
            "monoxide alarm hangs there",
            "the flame uses up the air that people breathe",
        ),
    )
}
"""By danger, the gravest first (source key ``practice``). Local codes, the maker's leaflet and
the fire brigade's advice come first."""

if set(GUARDS) != set(DANGERS):  # pragma: no cover - a slip of the programmer, not of a user
    raise AssertionError(set(GUARDS) ^ set(DANGERS))
