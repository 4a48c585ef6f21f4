"""Letters where the lamp is to be seen: what to do now where it is dangerous, how to send it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.post.letter_parts import bulleted, lamps_listed, letter, quoted, telephone

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.cause.dangers import Guard
    from wickwright.fit.compiled import Compiled

__all__ = ["bench_letter", "safety_letter"]


def bench_letter(
    compiled: Compiled,
    lamp: str = "",
    *,
    call: str = "",
    caller: str = "",
    adviser: str = "",
    complaint: str = "",
) -> str:
    """Write to a caller whose lamp is to be seen at the bench.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    lamp : str
        Model number; blank where it is not known.
    call : str
        Number of the call; may be blank.
    caller, adviser, complaint : str
        As for :func:`wickwright.answers.post.reply.reply`.

    Returns
    -------
    str
        Plain text, a blank line between paragraphs.
    """
    model = lamps_listed([compiled.book.lamps[lamp]]) if lamp else "lamp"
    told = f" You told us: {quoted(complaint)}." if complaint.strip() else ""
    begins = f"Thank you for your call about your {model}.{told} {_BRING_IT}"
    return letter(compiled, [begins, *_how_to_send(call)], caller, adviser)


def _how_to_send(call: str) -> tuple[str, str]:
    number = f"Write the number of the call, {call}, on a note inside. " if call else ""
    return bulleted("This is how to pack it:", _PACKING), f"{number}{_BEFORE_WORK}"


_BRING_IT: Final = (
    "We could not settle it from afar and would like to see the lamp itself. Please do not light "
    "it, or plug it in, until then."
)
_BEFORE_WORK: Final = (
    "Send no glass that is cracked. We look at the lamp, and tell you what it needs and costs "
    "before we do anything."
)
_PACKING: Final = (
    "Let it get cold to the hand. Pull the plug if it runs on a bulb.",
    (
        "Empty the font, the vessel for the fuel, in the open with no flame near, and leave it "
        "open in the air for a day. No fuel goes in the post: fire."
    ),
    (
        "Take off the tall glass, the shade, and the white web that glows. Keep them at home "
        "unless we asked for them."
    ),
    "Wrap burner and font each by itself, in plenty of paper, in a stiff box.",
)
"""Common practice, no published source; carriers' own rules come first."""


# -- danger --------------------------------------------------------------------------------------


def safety_letter(
    compiled: Compiled,
    shut: Sequence[Guard],
    *,
    call: str = "",
    caller: str = "",
    adviser: str = "",
    complaint: str = "",
) -> str:
    """Write to a caller whose lamp must not burn as it is.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    shut : sequence of Guard
        The dangers that were found and are not cleared, gravest first; at least one.
    call, caller, adviser, complaint : str
        As for :func:`bench_letter`.

    Returns
    -------
    str
        What to do now and never, in the words that were said on the telephone; what must be so
        before it is lit or plugged in again, or how to send it where no call can settle that.
        No caution is left out for the sake of length.
    """
    told = f" You told us: {quoted(complaint)}." if complaint.strip() else ""
    tells = dict.fromkeys(tell for guard in shut for tell in guard.tells)
    nevers = dict.fromkeys(never for guard in shut for never in guard.never)
    bench = [guard for guard in shut if not guard.clears]
    paragraphs = [
        f"Thank you for your call.{told} {_STAYS_OUT}",
        bulleted("Because of what you told us, do this now, in this order:", tuple(tells)),
        bulleted("Never:", tuple(nevers)),
        bulleted("It may be used again only when this is so:", tuple(_cleared(shut))),
        *((_TO_THE_BENCH, *_how_to_send(call)) if bench else ()),
        _call_then(compiled),
    ]
    return letter(compiled, paragraphs, caller, adviser)


def _cleared(shut: Sequence[Guard]) -> list[str]:
    return [f"{guard.clears[:1].upper()}{guard.clears[1:]}." for guard in shut if guard.clears]


_STAYS_OUT: Final = "Please do not light the lamp, or plug it in, until this letter is done with."
_TO_THE_BENCH: Final = (
    "No letter or call can make it safe: once it is out and cold, we have to see it at our bench."
)


def _call_then(compiled: Compiled) -> str:
    number = telephone(compiled)
    us = f"us ({number})" if number else "us"
    return (
        f"Call {us} when that is done. Your local codes, the maker's leaflet, licensed practice "
        "and the fire brigade's advice come first."
    )
