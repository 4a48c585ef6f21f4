"""How a call ends: causes, the likeliest first, and what is chosen beforehand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.sheet.call_sheet import AskBench
from wickwright.catalogue.records import KINDS
from wickwright.cause.case import Outcome
from wickwright.cause.knowledge import causes_on

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.sheet.call_record import Given, Said
    from wickwright.answers.sheet.call_sheet import Sheet
    from wickwright.catalogue.call_records import CallBook
    from wickwright.catalogue.records import Book
    from wickwright.cause.next_step import Likely

__all__ = ["CauseChoice", "causes_ranked", "outcome_told"]

SHOWN: Final = 5
"""Causes that are not folded [-]."""
_LIKELY: Final = 0.5


@dataclass(frozen=True, slots=True)
class CauseChoice:
    """A cause that can be chosen.

    Attributes
    ----------
    key, says : str
        Which, and in words.
    preset : bool
        Whether it is chosen beforehand, still to be confirmed.
    """

    key: str
    says: str
    preset: bool = False


def causes_ranked(book: Book, said: Said, sheet: Sheet | None) -> tuple[CauseChoice, ...]:
    """Return what may be behind the complaint of a call, the likeliest first.

    Parameters
    ----------
    book : Book
        The fit book of the call.
    said : Said
        What stands on its sheet; where the lamp is not known, of any lamp.
    sheet : Sheet or None
        Worked out. Causes are ranked by what was answered, and one is preset: that of the remedy
        that cured the lamp, or the first where it is more likely than not.

    Returns
    -------
    tuple of CauseChoice
        Causes that show by the sign the complaint is about; none without a complaint.
    """
    able = [*_able(book, said)]
    likely = {one.cause: one.chance for one in _advised(sheet)}
    able.sort(key=lambda cause: -likely.get(cause, 0.0))
    first = _preset(book.calls, said, able, likely)
    return tuple(CauseChoice(one, book.calls.causes[one].says, one == first) for one in able)


def outcome_told(sheet: Sheet | None, given: Sequence[Given]) -> str:
    """Return how a call ended as far as it was told; blank where it was not.

    Parameters
    ----------
    sheet : Sheet or None
        Worked out.
    given : sequence of Given
        What went out.

    Returns
    -------
    str
        Key of an outcome.
    """
    if sheet is not None and sheet.case is not None and sheet.case.advice.closed:
        return str(Outcome.CURED)
    if sheet is not None and isinstance(sheet.asked, AskBench):
        return "sent to the bench"
    return "sent" if any(one.what == "order" for one in given) else ""


def _able(book: Book, said: Said) -> Iterator[str]:
    """Yield causes of the complaint, by what the book says of them before anything is asked."""
    calls, lamp = book.calls, book.lamps.get(said.lamp)
    about = calls.complaints.get(said.complaint)
    kinds = {book.parts[one].kind for one in lamp.as_sold} if lamp else KINDS
    able = causes_on(calls, kinds, lamp.family) if lamp else calls.causes.values()
    shows = {show.cause: show.strength for show in calls.shows if about and show.sign == about.sign}
    found = [cause for cause in able if cause.id in shows]
    found.sort(key=lambda cause: -shows[cause.id] * cause.weight)
    yield from (cause.id for cause in found)


def _advised(sheet: Sheet | None) -> Sequence[Likely]:
    return () if sheet is None or sheet.case is None else sheet.case.advice.causes


def _preset(
    calls: CallBook, said: Said, able: Sequence[str], likely: dict[str, float]
) -> str | None:
    cured = {
        one["remedy"]
        for one in said.events
        if isinstance(one, dict) and one.get("outcome") == Outcome.CURED and "remedy" in one
    }
    if cured:
        by_it = {cure.cause for cure in calls.cures if cure.remedy in cured}
        return next((one for one in able if one in by_it), None)
    return next((one for one in able[:1] if likely.get(one, 0.0) > _LIKELY), None)
