"""What must hold within one port, and among the ports of one part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS, Need, Side
from wickwright.catalogue.spelling import meant, quoted

if TYPE_CHECKING:
    from wickwright.catalogue.sheets import Sheet

__all__ = ["FORM_WORDS", "JOINT_COLUMNS", "check_ports"]

FORM_WORDS: dict[str, tuple[str, ...]] = {
    "thread": ("un", "round", "tube"),
    "wick": ("round", "flat"),
}
"""Words of the column ``form``; on open arms it is a number."""

_BOTH: dict[str, tuple[str, ...]] = {
    "thread": ("diameter", "pitch", "form", "hand"),
    "quarter-turn": ("diameter", "lugs", "angle"),
    "wick": ("diameter", "form"),
    "mantle": ("diameter",),
    "fitter": ("diameter",),
    "lampholder": ("cap", "limit"),
    "rest": ("diameter",),
}
JOINT_COLUMNS: dict[tuple[str, str], tuple[str, ...]] = {
    **{(joint, side): names for joint, names in _BOTH.items() for side in Side},
    ("plain-foot", Side.CARRIES): ("capture",),
    ("plain-foot", Side.STANDS): ("diameter",),
    ("open-arms", Side.CARRIES): ("capture", "form"),
    ("open-arms", Side.STANDS): ("diameter", "form"),
}
"""The columns a joint looks at, by joint and side; ``reach`` may stand at any."""

_JUDGED = ("diameter", "capture", "pitch", "form", "hand", "lugs", "angle", "cap", "limit")
_FULL_TURN = 360
_LEAST_ARMS = 2


def _check_sides(sheet: Sheet) -> None:
    """Note carrying ports that take nothing, and standing ports that take something."""
    texts = (sheet.texts[name] for name in ("side", "takes", "need"))
    for at, (side, takes, need) in enumerate(zip(*texts, strict=True)):
        if side == Side.CARRIES and not takes:
            cure = f"write the kinds of part it accepts: {', '.join(KINDS)}"
            sheet.fault(at, "takes", "a port that carries takes nothing", cure)
        elif side == Side.STANDS and (takes or need):
            column = "takes" if takes else "need"
            what = f"a port that stands has no {column}"
            sheet.fault(at, column, what, "clear the cell, or make the side carries")
        elif need == Need.CARE and takes and sheet.lists["takes"][at] != ("tool",):
            what = f"the need 'care' is for tools, not for {quoted(takes)}"
            sheet.fault(at, "need", what, "write required or optional, or take a tool here")


def _check_joint_columns(sheet: Sheet) -> None:
    """Note the cells a joint would pass over."""
    joints, sides = sheet.texts["joint"], sheet.texts["side"]
    for name in _JUDGED:
        for at, text in enumerate(sheet.texts[name]):
            if not text:
                continue
            looked_at = JOINT_COLUMNS.get((joints[at], sides[at]))
            if looked_at is not None and name not in looked_at:
                what = (
                    f"the joint {joints[at]} does not look at {name} on the side that {sides[at]}"
                )
                cure = f"clear the cell, or correct the joint; it looks at: {', '.join(looked_at)}"
                sheet.fault(at, name, what, cure)


def _check_forms(sheet: Sheet) -> None:
    for at, (joint, form) in enumerate(zip(sheet.texts["joint"], sheet.texts["form"], strict=True)):
        words = FORM_WORDS.get(joint)
        if form and words and form not in words:
            what = f"{quoted(form)} is not a form of the joint {joint}"
            sheet.fault(at, "form", what, f"{meant(form, words)}choose from: {', '.join(words)}")
        elif form and joint == "open-arms" and not _is_arms(form):
            what = f"{quoted(form)} is not a number of arms"
            sheet.fault(at, "form", what, "write how many arms, such as 3")


def _is_arms(form: str) -> bool:
    return form.isascii() and form.isdigit() and len(form) < len("100") and int(form) >= _LEAST_ARMS


def _check_captures(sheet: Sheet) -> None:
    for at, size in enumerate(sheet.sizes["capture"]):
        if size is not None and not (size.low < size.high and _is_range(size.text)):
            what = f"{quoted(size.text)} is not a range of diameters"
            sheet.fault(at, "capture", what, "write the least and the greatest: 65.5..67.5 mm")


def _is_range(text: str) -> bool:
    return any(mark in text for mark in ("..", "\u2013", "to"))


def _check_turns(sheet: Sheet) -> None:
    for at, lugs in enumerate(sheet.wholes["lugs"]):
        if lugs == 0:
            cure = "write how many lugs, or leave it blank if not known"
            sheet.fault(at, "lugs", "a quarter-turn joint has at least one lug", cure)
    for at, angle in enumerate(sheet.numbers["angle"]):
        if angle is not None and not 0 < angle <= _FULL_TURN:
            what = f"{angle} degrees is not a turn from entry to lock"
            sheet.fault(at, "angle", what, f"write degrees above 0, at most {_FULL_TURN}")
    for at, limit in enumerate(sheet.numbers["limit"]):
        if limit == 0:
            cure = "write the watts, or leave it blank if not known"
            sheet.fault(at, "limit", "a lampholder or bulb of 0 watts gives no light", cure)


def _check_rivals(sheet: Sheet) -> None:
    """Note two required ports of a part that can only be filled by one kind."""
    first: dict[tuple[str, str], int] = {}
    texts = (sheet.texts[name] for name in ("part", "need", "takes"))
    for at, (part, need, takes) in enumerate(zip(*texts, strict=True)):
        if need != Need.REQUIRED or takes not in KINDS or not part:
            continue
        other = first.setdefault((part, takes), at)
        if other != at:
            sheet.fault(
                at,
                "takes",
                f"{quoted(part)} already requires a {takes} at the port "
                f"{quoted(sheet.texts['port'][other])} on row {sheet.rows[other]}",
                "a lamp carries one part of each kind: make one of the two optional",
            )


def check_ports(sheet: Sheet) -> None:
    """Note what cannot be about the ports.

    Parameters
    ----------
    sheet : Sheet
        The table ``ports``; faults are added to it.
    """
    _check_sides(sheet)
    _check_joint_columns(sheet)
    _check_forms(sheet)
    _check_captures(sheet)
    _check_turns(sheet)
    _check_rivals(sheet)
