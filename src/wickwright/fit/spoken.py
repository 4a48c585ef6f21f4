"""What an adviser says to a caller for the words of the fit book: joints, threads, wicks.

A table is for those who know the trade: ``un``, ``plain-foot``. On the telephone it is a UN
thread and a plain foot.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickwright.fit.joints.verdict import Joined

__all__ = ["FORMS", "JOINTS_MADE_FOR", "spoken"]

JOINTS_MADE_FOR: Final[Mapping[str, tuple[str, str]]] = {
    "thread": ("a screw thread", "a threaded collar"),
    "plain-foot": ("a plain foot", "spring fingers"),
    "quarter-turn": ("a quarter-turn foot", "lugs that it turns under"),
    "wick": ("a wick", "a wick tube"),
    "mantle": ("a mantle", "a mantle's seat"),
    "fitter": ("the rim of a glass shade", "a full ring"),
    "open-arms": ("a wire frame", "open arms"),
    "lampholder": ("a bulb", "a lampholder"),
    "rest": ("a foot to stand in it", "a place to stand in"),
}
"""By joint: what the part below is made for, and what the part above is made for."""

FORMS: Final[Mapping[tuple[str, str], tuple[str, str]]] = {
    ("thread", "un"): ("a UN thread", "a UN thread"),
    ("thread", "round"): ("a rounded thread", "a rounded thread"),
    ("thread", "tube"): ("a fine tube thread", "a fine tube thread"),
    ("wick", "round"): ("a round wick", "a round tube"),
    ("wick", "flat"): ("a flat wick", "a flat slot"),
    ("mantle", "ring"): ("a mantle that sits in a ring", "a ring to sit in"),
    ("mantle", "post"): ("a mantle that goes over a post", "a post to go over"),
}
"""By joint and form: what the part below is made for, and what the part above is made for."""


def spoken(joined: Joined, joint: str, below: str, above: str) -> dict[str, str]:
    """Return what fills the sentence of a verdict.

    Parameters
    ----------
    joined : Joined
        The verdict, with the words that were compared.
    joint : str
        The joint, by its name in the fit book.
    below, above : str
        Kinds of the carrying and the standing part.

    Returns
    -------
    dict
        ``below``, ``above`` (the two parts) and, where words were compared, ``carrier`` and
        ``stander``, as they are read out.
    """
    sides = _sides(below, above)
    if not joined.words:
        return sides
    return {**sides, **dict(zip(("carrier", "stander"), _compared(joined, joint), strict=True))}


def _sides(below: str, above: str) -> dict[str, str]:
    if below == above:
        return {"below": f"lower {below}", "above": f"upper {above}"}
    return {"below": below, "above": above}


def _compared(joined: Joined, joint: str) -> tuple[str, str]:
    carrier, stander = joined.words["carrier"], joined.words["stander"]
    match joined.why:
        case "joint":
            return _joint(carrier)[0], _joint(stander)[1]
        case "form":
            return _form(joint, carrier)[0], _form(joint, stander)[1]
        case "pitch":
            return _pitch(carrier), _pitch(stander)
        case "angle":
            return _degrees(carrier), _degrees(stander)
        case _:
            return carrier, stander


def _joint(key: str) -> tuple[str, str]:
    return JOINTS_MADE_FOR.get(key, (f"the joint '{key}'",) * 2)


def _form(joint: str, form: str) -> tuple[str, str]:
    return FORMS.get((joint, form.strip().casefold()), (f"the form '{form}'",) * 2)


def _pitch(text: str) -> str:
    if text.endswith("tpi"):
        return f"{text.removesuffix('tpi').strip()} threads to the inch"
    return f"{text} from one crest to the next"


def _degrees(angle: str) -> str:
    return f"{angle.removesuffix('°')} degrees"
