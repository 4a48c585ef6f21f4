"""What a caller would like, as people say it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickwright.answers.sheet.given_up import asked_words
from wickwright.fit.request import Claim

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.catalogue.records import Ask
    from wickwright.fit.request import Situation

__all__ = ["want_words"]

_NOUNS: Final[Mapping[str, str]] = {
    "holder": "shade holder",
    "spreader": "flame spreader",
    "bell": "smoke bell",
    "tool": "wick cleaner",
}
"""What kinds of part are called on the telephone; others by their own names."""


def want_words(now: Situation) -> str:
    """Say what a caller would like.

    Parameters
    ----------
    now : Situation
        A request, looked at.

    Returns
    -------
    str
        What follows 'you would like': ``'a new chimney'``, ``'a shade of glass'``; where that
        cannot be said in a noun, the title of the wish after a colon. Blank without a wish.
    """
    wish, given_up = now.request.wish, now.request.given_up
    asks = [
        ask
        for at, ask in enumerate(wish.asks)
        if ask.says and Claim("ask", ask.kind, at) not in given_up
    ]
    nouns = [*_nouns(asks)]
    if nouns and all(nouns):
        return " and ".join(nouns)
    told = "; ".join(asked_words(now)) if given_up else wish.title
    return f"this: {told[:1].lower()}{told[1:]}" if told else ""


def _nouns(asks: list[Ask]) -> Iterator[str]:
    """Yield a noun for each kind that is asked for; blank where there is none for an ask."""
    of = {
        ask.kind: f" of {ask.value}"
        for ask in asks
        if (ask.ask, ask.field, ask.test) == ("only", "material", "is")
    }
    for ask in asks:
        noun = _NOUNS.get(ask.kind, ask.kind)
        match ask.ask:
            case "renew":
                yield f"a new {noun}{of.get(ask.kind, '')}"
            case "present" if ask.kind == "shade":
                yield f"a {noun}{of.get(ask.kind, '')}"
            case "absent":
                yield f"no {noun}"
            case "only" if ask.kind in of:
                continue
            case _:
                yield ""
