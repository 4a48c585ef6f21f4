"""What a caller does without, so that the rest can be had: as it is kept with a call, and said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.words.wording import claim_words
from wickwright.fit.request import WISHES, Claim

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Impossible, WayOut

__all__ = ["asked_words", "claim_text", "given_up_words", "offered", "read_claims", "wish_words"]


def claim_text(claim: Claim) -> str:
    """Write a claim in one word, such as ``ask:shade:1``.

    Parameters
    ----------
    claim : Claim
        That is given up.

    Returns
    -------
    str
        What :func:`read_claims` reads.
    """
    return f"{claim.sort}:{claim.subject}:{claim.index}"


def read_claims(texts: Sequence[str]) -> tuple[Claim, ...]:
    """Read claims that were given up.

    Parameters
    ----------
    texts : sequence of str
        As :func:`claim_text` writes them.

    Returns
    -------
    tuple of Claim
        Without what is no claim, or a law of the parts: laws are never given up.
    """
    read = (text.split(":") for text in texts)
    return tuple(
        Claim(words[0], words[1], int(words[2]))
        for words in read
        if len(words) == 3 and words[0] in WISHES  # noqa: PLR2004 - sort, subject, index
        if words[2].isascii() and words[2].isdigit()
    )


def offered(answer: Impossible) -> tuple[WayOut, ...]:
    """Return what a caller can be offered to give up.

    Parameters
    ----------
    answer : Impossible
        With its ways out.

    Returns
    -------
    tuple of WayOut
        Those that give up wishes alone, and of which every part can be sent.
    """
    return tuple(
        out
        for out in answer.ways_out
        if not out.elsewhere and all(claim.sort in WISHES for claim in out.give_up)
    )


def wish_words(now: Situation) -> str:
    """Say what is wanted, with what is done without.

    Parameters
    ----------
    now : Situation
        A request, looked at.

    Returns
    -------
    str
        Such as ``A glass shade, without 'the shade is of glass'``.
    """
    wish = now.request.wish
    without = " and ".join(f"'{one}'" for one in given_up_words(now))
    return f"{wish.title or wish.id}, without {without}" if without else wish.title or wish.id


def asked_words(now: Situation) -> tuple[str, ...]:
    """Say what a wish asks for, what was given up of it left out.

    Parameters
    ----------
    now : Situation
        A request, looked at.

    Returns
    -------
    tuple of str
        Clauses without a full stop.
    """
    return tuple(
        ask.says
        for at, ask in enumerate(now.request.wish.asks)
        if ask.says and Claim("ask", ask.kind, at) not in now.request.given_up
    )


def given_up_words(now: Situation, claims: Sequence[Claim] | None = None) -> tuple[str, ...]:
    """Say what is done without.

    Parameters
    ----------
    now : Situation
        A request, looked at.
    claims : sequence of Claim, optional
        Of its wish; else all it does without.

    Returns
    -------
    tuple of str
        Clauses without a full stop, such as ``'the shade is of glass'``.
    """
    asks = len(now.request.wish.asks)
    return tuple(
        claim_words(claim, now)
        for claim in (now.request.given_up if claims is None else claims)
        if claim.sort in WISHES and (claim.sort != "ask" or claim.index < asks)
    )
