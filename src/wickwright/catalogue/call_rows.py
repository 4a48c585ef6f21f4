"""The records of a call out of their sheets, and back into rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.catalogue.call_records import (
    CallBook,
    Cause,
    Complaint,
    Cure,
    Look,
    Mark,
    Often,
    Remedy,
    Show,
    Sign,
    State,
    Swap,
    Way,
)
from wickwright.catalogue.print_cells import print_number
from wickwright.catalogue.shares import parse_strength

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wickwright.catalogue.sheets import Sheet, Sheets

__all__ = ["call_book", "call_rows"]

Cells = dict[str, str]

_RIGHT, _UNSURE, _ANYWAY, _SURE = 0.92, 0.08, 0.02, 0.95  # assumptions where a cell is blank
_NO_RIGHT = 0.94
_RULER = 0.003  # [m]


def _share(sheet: Sheet, column: str, at: int, default: float = 0.0) -> float:
    """Return a number of a hundred as a share, or what is assumed where it is blank."""
    number = sheet.numbers[column][at]
    return default if number is None else float(number.scaleb(-2))


def _number(sheet: Sheet, column: str, at: int) -> float:
    return float(sheet.numbers[column][at] or 0)


def _looks(sheet: Sheet) -> Iterator[Look]:
    texts = sheet.texts
    for at, key in enumerate(texts["look"]):
        way, error = Way(texts["way"][at]), sheet.sizes["error"][at]
        ruler = _RULER if error is None else error.nominal
        yield Look(
            id=key,
            kind=texts["kind"][at],
            question=texts["question"][at],
            way=way,
            minutes=_number(sheet, "minutes", at),
            right=_share(sheet, "right", at, _RIGHT),
            unsure=_share(sheet, "unsure", at, _UNSURE),
            error=ruler if way is Way.MEASURE else 0.0,
            note=texts["note"][at],
            printed=texts["error"][at],
        )


def _marks(sheet: Sheet) -> Iterator[Mark]:
    columns = (sheet.texts[c] for c in ("part", "look", "value", "confused_with", "confused"))
    for part, look, value, other, often in zip(*columns, strict=True):
        yield Mark(part, look, value, other, Often(often) if often else Often.SOMETIMES)


def _swaps(sheet: Sheet) -> Iterator[Swap]:
    texts = sheet.texts
    for at, kind in enumerate(texts["kind"]):
        yield Swap(kind, _share(sheet, "share", at), texts["source"][at], texts["note"][at])


def _signs(sheet: Sheet) -> Iterator[Sign]:
    texts = sheet.texts
    for at, key in enumerate(texts["sign"]):
        yield Sign(
            id=key,
            question=texts["question"][at],
            says=texts["says"][at],
            way=Way(texts["way"][at]),
            minutes=_number(sheet, "minutes", at),
            state=State(texts["state"][at]),
            needs=sheet.lists["needs"][at],
            yes_right=_share(sheet, "yes_right", at, _RIGHT),
            no_right=_share(sheet, "no_right", at, _NO_RIGHT),
            unsure=_share(sheet, "unsure", at, _UNSURE),
            anyway=_share(sheet, "anyway", at, _ANYWAY),
            danger=texts["danger"][at],
            why=texts["why"][at],
            source=texts["source"][at],
            words=_split(texts["words"][at]),
        )


def _split(words: str) -> tuple[str, ...]:
    return tuple(one for one in map(str.strip, words.split(";")) if one)


def _complaints(sheet: Sheet) -> Iterator[Complaint]:
    columns = (sheet.texts[c] for c in ("complaint", "says", "sign", "words"))
    for key, says, sign, words in zip(*columns, strict=True):
        yield Complaint(key, says, sign, _split(words))


def _causes(sheet: Sheet) -> Iterator[Cause]:
    texts = sheet.texts
    for at, key in enumerate(texts["cause"]):
        yield Cause(
            id=key,
            says=texts["says"][at],
            weight=_share(sheet, "weight", at),
            needs=sheet.lists["needs"][at],
            families=sheet.lists["families"][at],
            computed=texts["computed"][at],
            why=texts["why"][at],
            source=texts["source"][at],
        )


def _shows(sheet: Sheet) -> Iterator[Show]:
    columns = (sheet.texts[c] for c in ("cause", "sign", "strength", "source"))
    for cause, sign, printed, source in zip(*columns, strict=True):
        yield Show(cause, sign, parse_strength(printed), source, printed)


def _remedies(sheet: Sheet) -> Iterator[Remedy]:
    texts = sheet.texts
    for at, key in enumerate(texts["remedy"]):
        yield Remedy(
            id=key,
            says=texts["says"][at],
            minutes=_number(sheet, "minutes", at),
            state=State(texts["state"][at]),
            wish=texts["wish"][at],
            extra=_number(sheet, "extra", at),
            caution=texts["caution"][at],
            source=texts["source"][at],
        )


def _cures(sheet: Sheet) -> Iterator[Cure]:
    texts = sheet.texts
    for at, (remedy, cause) in enumerate(zip(texts["remedy"], texts["cause"], strict=True)):
        yield Cure(remedy, cause, _share(sheet, "sure", at, _SURE))


def call_book(sheets: Sheets) -> CallBook:
    """Make the records of a call from sheets without a fault.

    Parameters
    ----------
    sheets : dict of str to Sheet
        Read and checked.

    Returns
    -------
    CallBook
        What the book knows for taking a call.
    """
    return CallBook(
        looks={look.id: look for look in _looks(sheets["looks"])},
        marks=tuple(_marks(sheets["marks"])),
        swaps={swap.kind: swap for swap in _swaps(sheets["swaps"])},
        signs={sign.id: sign for sign in _signs(sheets["signs"])},
        complaints={one.id: one for one in _complaints(sheets["complaints"])},
        causes={cause.id: cause for cause in _causes(sheets["causes"])},
        shows=tuple(_shows(sheets["shows"])),
        remedies={remedy.id: remedy for remedy in _remedies(sheets["remedies"])},
        cures=tuple(_cures(sheets["cures"])),
    )


def _of_hundred(share: float, default: float | None = None) -> str:
    return "" if share == default else print_number(share, 2)


def _look(look: Look) -> Cells:
    return {
        "look": look.id,
        "kind": look.kind,
        "question": look.question,
        "way": look.way,
        "minutes": print_number(look.minutes),
        "right": _of_hundred(look.right, _RIGHT),
        "unsure": _of_hundred(look.unsure, _UNSURE),
        "error": look.printed,
        "note": look.note,
    }


def _mark(mark: Mark) -> Cells:
    return {
        "part": mark.part,
        "look": mark.look,
        "value": mark.value,
        "confused_with": mark.confused_with,
        "confused": "" if mark.confused is Often.SOMETIMES else mark.confused,
    }


def _sign(sign: Sign) -> Cells:
    return {
        "sign": sign.id,
        "question": sign.question,
        "says": sign.says,
        "way": sign.way,
        "minutes": print_number(sign.minutes),
        "state": sign.state,
        "needs": " ".join(sign.needs),
        "yes_right": _of_hundred(sign.yes_right, _RIGHT),
        "no_right": _of_hundred(sign.no_right, _NO_RIGHT),
        "unsure": _of_hundred(sign.unsure, _UNSURE),
        "anyway": _of_hundred(sign.anyway, _ANYWAY),
        "danger": sign.danger,
        "why": sign.why,
        "source": sign.source,
        "words": "; ".join(sign.words),
    }


def _cause(cause: Cause) -> Cells:
    return {
        "cause": cause.id,
        "says": cause.says,
        "weight": _of_hundred(cause.weight),
        "needs": " ".join(cause.needs),
        "families": " ".join(cause.families),
        "computed": cause.computed,
        "why": cause.why,
        "source": cause.source,
    }


def _remedy(remedy: Remedy) -> Cells:
    return {
        "remedy": remedy.id,
        "says": remedy.says,
        "minutes": print_number(remedy.minutes),
        "state": remedy.state,
        "wish": remedy.wish,
        "extra": print_number(remedy.extra or None),
        "caution": remedy.caution,
        "source": remedy.source,
    }


def _swap(swap: Swap) -> Cells:
    share = _of_hundred(swap.share)
    return {"kind": swap.kind, "share": share, "source": swap.source, "note": swap.note}


def _complaint(one: Complaint) -> Cells:
    words = "; ".join(one.words)
    return {"complaint": one.id, "says": one.says, "sign": one.sign, "words": words}


def _show(show: Show) -> Cells:
    strength = show.printed or _of_hundred(show.strength)
    return {"cause": show.cause, "sign": show.sign, "strength": strength, "source": show.source}


def _cure(cure: Cure) -> Cells:
    sure = _of_hundred(cure.sure, _SURE)
    return {"remedy": cure.remedy, "cause": cure.cause, "sure": sure}


def call_rows(calls: CallBook) -> dict[str, Iterable[Cells]]:
    """Write the records of a call as rows.

    Parameters
    ----------
    calls : CallBook
        What a book knows for taking a call.

    Returns
    -------
    dict of str to iterable of dict
        The filled cells of every row, by table.
    """
    return {
        "looks": map(_look, calls.looks.values()),
        "marks": map(_mark, calls.marks),
        "swaps": map(_swap, calls.swaps.values()),
        "signs": map(_sign, calls.signs.values()),
        "complaints": map(_complaint, calls.complaints.values()),
        "causes": map(_cause, calls.causes.values()),
        "shows": map(_show, calls.shows),
        "remedies": map(_remedy, calls.remedies.values()),
        "cures": map(_cure, calls.cures),
    }
