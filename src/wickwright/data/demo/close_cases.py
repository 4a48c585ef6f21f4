"""Make the demo's closed cases: lamps that go wrong otherwise than the book says, with noise.

Run as a script. It writes ``cases.jsonl`` beside itself, the same bytes at every run. What the
lamps truly do is :func:`truth`: the book's strengths and weights moved by known log-odds.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Final

from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book
from wickwright.cause.case import Answer, Case, Outcome, Said
from wickwright.cause.closed import ClosedCase, Confirmed, written_closed
from wickwright.store.tables import are_faults, read_tables

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.catalogue.call_records import CallBook, Cause, Sign
    from wickwright.catalogue.records import Lamp

__all__ = ["OFF", "drawn", "main", "truth"]

HERE = Path(__file__).parent
OFF: Final = 1.0
"""Standard deviation of what the truth is off the book by [log-odds]."""
SEED: Final = 1911
CASES: Final = 200
ASKED: Final = 10
SECOND: Final = 0.12
"""Share of lamps with a second cause."""
CONFIRMED: Final = {
    Confirmed.TELEPHONE: 45,
    Confirmed.RETURNED: 15,
    Confirmed.BENCH: 30,
    Confirmed.NOT: 10,
}
"""How cases are confirmed, of a hundred."""
LAST: Final = date(2026, 6, 30)


def _book() -> Book:
    tables = read_tables(HERE / "book")
    if are_faults(tables):
        raise SystemExit(str(tables))
    book = read_book(tables)
    if not isinstance(book, Book):
        raise SystemExit(str(book))
    return book


def _off(chance: float, rng: random.Random) -> float:
    step = rng.gauss(0.0, OFF)
    if not 0.0 < chance < 1.0:
        return chance
    return 1.0 / (1.0 + math.exp(-math.log(chance / (1.0 - chance)) - step))


def truth(calls: CallBook) -> CallBook:
    """Return the call tables as the demo's lamps really are.

    Parameters
    ----------
    calls : CallBook
        The tables of the book.

    Returns
    -------
    CallBook
        Weights and strengths each moved by :data:`OFF`; signs that mean a danger are not.
    """
    rng = random.Random(SEED)
    causes = {key: replace(one, weight=_off(one.weight, rng)) for key, one in calls.causes.items()}
    shows = tuple(
        one
        if calls.signs[one.sign].danger
        else replace(one, strength=_off(one.strength, rng), printed="")
        for one in calls.shows
    )
    return replace(calls, causes=causes, shows=shows)


def _lamp_causes(book: Book, calls: CallBook, lamp: Lamp) -> tuple[list[Cause], list[Sign]]:
    kinds = {book.parts[part].kind for part in lamp.as_sold}
    causes = [
        one
        for one in calls.causes.values()
        if set(one.needs) <= kinds and (not one.families or lamp.family in one.families)
    ]
    return causes, [one for one in calls.signs.values() if set(one.needs) <= kinds]


def _shown(
    calls: CallBook, held: Sequence[str], signs: Sequence[Sign], rng: random.Random
) -> set[str]:
    quiet = {one.id: 1.0 - one.anyway for one in signs}
    for show in calls.shows:
        if show.cause in held and show.sign in quiet:
            quiet[show.sign] *= 1.0 - show.strength
    return {key for key, silent in quiet.items() if rng.random() >= silent}


def _answer(sign: Sign, there: bool, rng: random.Random) -> Answer:  # noqa: FBT001 - what is so
    if rng.random() < sign.unsure:
        return Answer(sign.id, Said.UNSURE)
    right = rng.random() < (sign.yes_right if there else sign.no_right)
    return Answer(sign.id, Said.YES if there == right else Said.NO)


def _one(book: Book, calls: CallBook, rng: random.Random) -> ClosedCase | None:
    """Return a case, or None where the lamp drawn has nothing to complain of."""
    lamp = rng.choice(list(book.lamps.values()))
    causes, signs = _lamp_causes(book, calls, lamp)
    weights = [one.weight for one in causes]
    many = 2 if rng.random() < SECOND else 1
    held = sorted({one.id for one in rng.choices(causes, weights, k=many)})
    there = _shown(calls, held, signs, rng)
    complaints = [one for one in calls.complaints.values() if one.sign in there]
    if not complaints:
        return None
    complaint = rng.choice(complaints)
    open_ = [one for one in signs if one.id != complaint.sign and not one.danger]
    asked = rng.sample(open_, min(ASKED, len(open_)))
    events = tuple(_answer(one, one.id in there, rng) for one in asked)
    confirmed = rng.choices(list(CONFIRMED), list(CONFIRMED.values()))[0]
    found = () if confirmed is Confirmed.NOT else tuple(held)
    closed = LAST - timedelta(days=rng.randrange(540))
    case = Case(lamp.id, tuple(lamp.as_sold), complaint.id, events)
    return ClosedCase(case, Outcome.CURED, found, confirmed, closed)


def drawn(book: Book, many: int, seed: int) -> list[ClosedCase]:
    """Return closed cases of lamps as they really are.

    Parameters
    ----------
    book : Book
        The demo book.
    many : int
        How many [-].
    seed : int
        Of the draw.

    Returns
    -------
    list of ClosedCase
        The same at every run.
    """
    rng = random.Random(seed)
    calls = truth(book.calls)
    cases: list[ClosedCase] = []
    while len(cases) < many:
        one = _one(book, calls, rng)
        cases += [one] if one else []
    return cases


def main() -> None:
    """Write the cases."""
    lines = [written_closed(one) + "\n" for one in drawn(_book(), CASES, SEED + 1)]
    (HERE / "cases.jsonl").write_text("".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
