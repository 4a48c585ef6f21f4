"""Dangers on a call sheet: what is read out of the words, asked first, and made good by a part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.said.what_is_meant import CallFor, Wanted
from wickwright.answers.sheet.questions import AskBench, AskClear, AskDangers
from wickwright.cause.case import Case, Cleared, Danger, Spoken
from wickwright.cause.gate import gate_of
from wickwright.cause.spoken import not_heard_yet

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.call_records import CallBook
    from wickwright.catalogue.records import Book, Wish
    from wickwright.cause.case import Event
    from wickwright.cause.gate import Gate

__all__ = ["danger_asked", "gate_of_wish", "makes_good", "with_spoken"]


def with_spoken(events: Sequence[Event], spoken: Sequence[Spoken]) -> tuple[Event, ...]:
    """Return what was asked and done, with the dangers that the words speak of now.

    Parameters
    ----------
    events : sequence of Event
        As they stand on the sheet: among them which words were asked about.
    spoken : sequence of Spoken
        What the words speak of now.

    Returns
    -------
    tuple of Event
        What was not asked about yet comes last; what the words no longer say falls away.
    """
    now = {(one.danger, one.mark): one for one in spoken}
    kept = (now.get((one.danger, one.mark)) if isinstance(one, Spoken) else one for one in events)
    return (*(one for one in kept if one is not None), *not_heard_yet(spoken, events))


def gate_of_wish(events: tuple[Event, ...], calls: CallBook) -> Gate | None:
    """Return the dangers of a call about no complaint; None where nobody spoke of one.

    Once somebody's words speak of a danger the others of a flame are asked about with it.
    """
    spoken = any(isinstance(one, Spoken) for one in events)
    told = any(isinstance(one, Danger | Cleared) for one in events)
    return gate_of(Case("", (), "", events, flame=spoken), calls) if spoken or told else None


def makes_good(gate: Gate, wish: Wish | None) -> bool:
    """Tell whether what is wanted makes every danger good that is there."""
    renewed = {ask.kind for ask in wish.asks if ask.ask == "renew"} if wish else set()
    return not gate.unasked and all(guard.mended_by in renewed for guard in gate.shut)


def danger_asked(gate: Gate, book: Book, complaint: str) -> AskDangers | AskClear | AskBench:
    """Ask after the dangers nobody asked about, then after each that can be cleared.

    Parameters
    ----------
    gate : Gate
        Not open.
    book : Book
        Whose wishes are offered where a new part makes good what no call can clear.
    complaint : str
        Key of what is wrong; blank where nothing is.

    Returns
    -------
    AskDangers, AskClear or AskBench
        The question.
    """
    if gate.unasked:
        return AskDangers(gate.unasked, gate.spoken)
    guard = next((guard for guard in gate.shut if guard.clears), None)
    if guard is not None:
        return AskClear(guard)
    return AskBench(() if complaint else _mending(gate, book))


def _mending(gate: Gate, book: Book) -> tuple[Wanted, ...]:
    """Return the wishes for one new part that makes good all that is there."""
    return tuple(
        Wanted(CallFor.WISH, wish.id, wish.title, 1.0)
        for wish in book.wishes.values()
        if len(wish.asks) == 1 and makes_good(gate, wish)
    )
