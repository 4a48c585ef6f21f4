"""What closed cases say about the book's strengths, weights and leaks; nothing is put in force.

Only cases whose causes were confirmed are learned from. A sign that means a danger keeps its
numbers whatever the cases say, and so do the dangers themselves, minutes and extra minutes.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

import numpy as np

from wickwright.cause.case import Act, Answer, Outcome, Said
from wickwright.cause.closed import Confirmed, written_closed
from wickwright.cause.knowledge import NothingKnownError, knowledge_of
from wickwright.cause.weighing import as_answers
from wickwright.chance.learning import (
    STRENGTH,
    Cases,
    beta_mean,
    case_weights,
    counts_for,
    learned,
)
from wickwright.chance.learning import responsibilities as shares_of
from wickwright.chance.noisy_or import NoisyOr, sign_given
from wickwright.chance.scores import log_score

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date

    from wickwright.catalogue.call_records import CallBook, Sign
    from wickwright.catalogue.records import Book
    from wickwright.cause.case import Case
    from wickwright.cause.closed import ClosedCase
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.arrays import Bools, Floats

__all__ = [
    "CATCH_ALL",
    "FOLDS",
    "FOUND",
    "HALF_LIFE",
    "LARGE",
    "WORTH",
    "Change",
    "Learned",
    "Scores",
    "learned_from",
    "scored",
]

WORTH: Final[dict[Confirmed, float]] = {
    Confirmed.TELEPHONE: 0.3,
    Confirmed.RETURNED: 0.7,
    Confirmed.BENCH: 1.0,
}
"""What a case counts for by how it was confirmed [cases]: ``assumption``. That a lamp burned well
after an act does not prove what was wrong with it; a bench looks."""
FOUND = 3.0
"""The book's weight of a cause, and how often a sign is there anyway, count for as many cases as
it takes, by the book, to meet them this often [-]: ``assumption``; four in a hundred: 75 cases."""
HALF_LIFE = 730.0
"""Time in which a case comes to count half [d]: ``assumption``."""
LARGE = 0.7
"""A number that moves by more than this needs a person's word [log-odds]: ``assumption``."""
FOLDS = 5
"""Parts the cases are cut into; each is scored by tables learned from the others."""
CATCH_ALL: Final = "something-else"
"""The cause that stands for all the unlisted ones; never learned below :data:`_CATCH_ALL_LEAST`."""

_Lamp = tuple[frozenset[str], str, str]
_CATCH_ALL_LEAST = 0.03
_LEAST = 1e-4
_FIGURES = 4
_MOST_SETS = 2


@dataclass(frozen=True, slots=True)
class Change:
    """A number of the book that cases would move.

    Attributes
    ----------
    table, key, column : str
        Which cell: the table, the row's key (cause and sign of ``shows``), the column.
    old, new : float
        Before and after [-].
    cases : float
        What the cases that bear on it count for together [cases].
    large : bool
        True where it moves by more than :data:`LARGE`, so that a person has to look at it.
    """

    table: str
    key: str
    column: str
    old: float
    new: float
    cases: float
    large: bool


@dataclass(frozen=True, slots=True)
class Scores:
    """How well tables foretell confirmed causes.

    Attributes
    ----------
    cases : int
        Cases scored; those whose causes the tables cannot hold at once are left out [-].
    log : float
        Mean of -ln(chance stated for just the causes confirmed) [nat]; 0 at best.
    brier : float
        Mean over cases of the squared distance of all causes' chances from what was found [-].
    """

    cases: int
    log: float
    brier: float


@dataclass(frozen=True, slots=True)
class Learned:
    """What closed cases come to; a proposal.

    Attributes
    ----------
    calls : CallBook
        The call tables with the new numbers.
    changes : tuple of Change
        Largest first.
    confirmed : mapping of Confirmed to int
        Cases by how they were confirmed [-].
    before, after : Scores or None
        On cases that were not learned from, by the tables as they are and as learned from the
        other folds; None where there are fewer cases than folds.
    again : int
        Confirmed cases closed by the day the book was last signed: what they teach may stand in
        its numbers already, and would count twice [-].
    """

    calls: CallBook
    changes: tuple[Change, ...]
    confirmed: dict[Confirmed, int]
    before: Scores | None
    after: Scores | None
    again: int = 0

    @property
    def one_sided(self) -> bool:
        """True where all that is known was found over the telephone.

        Causes that only a bench finds are then counted too seldom, however many cases there are.
        """
        bench = self.confirmed[Confirmed.BENCH] + self.confirmed[Confirmed.RETURNED]
        return self.confirmed[Confirmed.TELEPHONE] > 0 and bench == 0


def _said(calls: CallBook, case: Case) -> dict[str, Said]:
    """Return the last answer about each sign, dangers too, while the lamp was as it came.

    The complaint's own sign is left out: every such case has it, so it tells nothing of how often.
    """
    own = calls.complaints[case.complaint].sign
    answers: dict[str, Said] = {}
    for event in as_answers(case, calls.signs):
        if isinstance(event, Act) and event.outcome is not Outcome.NOT_DONE:
            break
        if isinstance(event, Answer) and event.sign != own:
            answers[event.sign] = event.said
    return answers


def _odds(sign: Sign, said: Said) -> tuple[float, float]:
    """Return how probable an answer is where the sign is there, and where it is not [-]."""
    if said is Said.YES:
        return sign.yes_right, 1.0 - sign.no_right
    return (1.0 - sign.yes_right, sign.no_right) if said is Said.NO else (1.0, 1.0)


def _kinds(book: Book, closed: ClosedCase) -> frozenset[str]:
    """Return the kinds of part the lamp has or was sold with."""
    parts = (*book.lamps[closed.case.lamp].as_sold, *closed.case.parts)
    return frozenset(book.parts[part].kind for part in parts)


def _applicable(book: Book, closed: ClosedCase) -> Bools:
    """Return which causes can happen to the lamp of a case (causes) [-]."""
    kinds, family = _kinds(book, closed), book.lamps[closed.case.lamp].family
    return np.array(
        [
            set(one.needs) <= kinds and (not one.families or family in one.families)
            for one in book.calls.causes.values()
        ],
        dtype=np.bool_,
    )


def _net(calls: CallBook) -> NoisyOr:
    """Return all causes and signs of the book, whatever the lamp."""
    causes = {key: at for at, key in enumerate(calls.causes)}
    signs = {key: at for at, key in enumerate(calls.signs)}
    links = np.zeros((len(signs), len(causes)))
    for show in calls.shows:
        links[signs[show.sign], causes[show.cause]] = show.strength
    weights = [one.weight for one in calls.causes.values()]
    return NoisyOr(np.array(weights), links, np.array([one.anyway for one in calls.signs.values()]))


def _counted(book: Book, cases: Sequence[ClosedCase], weight: Floats, fits: Bools) -> Cases:
    """Return closed cases as arrays over all causes and signs of the book."""
    calls = book.calls
    there = np.ones((len(cases), len(calls.signs)))
    absent = np.ones_like(there)
    held = np.zeros((len(cases), len(calls.causes)), dtype=np.bool_)
    columns = {key: at for at, key in enumerate(calls.signs)}
    places = {key: at for at, key in enumerate(calls.causes)}
    for row, closed in enumerate(cases):
        kinds = _kinds(book, closed)
        held[row, [places[one] for one in closed.causes]] = True
        for key, said in _said(calls, closed.case).items():
            sign = calls.signs[key]
            if set(sign.needs) <= kinds and not sign.danger:
                there[row, columns[key]], absent[row, columns[key]] = _odds(sign, said)
    return Cases(held & fits, there, absent, weight)


def _weights(cases: Sequence[ClosedCase], today: date) -> Floats:
    age = np.array([(today - one.closed).days for one in cases], dtype=np.float64)
    worths = list(WORTH)
    places = [worths.index(c.confirmed) if c.confirmed in WORTH else -1 for c in cases]
    kind = np.array(places, dtype=np.intp)
    return case_weights(age, kind, np.array(list(WORTH.values())), HALF_LIFE)


def _shares(calls: CallBook, before: Floats, cases: Cases, fits: Bools, strength: float) -> Floats:
    """Return each cause's share of the lamps complained of that can have it (causes) [-]."""
    hits = cases.weight @ cases.causes.astype(np.float64)
    held = counts_for(before, strength, FOUND)
    after = beta_mean(before, held, hits, cases.weight @ fits.astype(np.float64))
    least = [_CATCH_ALL_LEAST if key == CATCH_ALL else _LEAST for key in calls.causes]
    return np.maximum(after, np.minimum(before, least))


def _moved_only(old: Floats, new: Floats) -> Floats:
    """Return new numbers rounded as a book prints them; the old one where rounding hides it."""
    rounded = np.round(new, _FIGURES)
    return np.where(np.abs(new - old) < 0.5 * 10.0**-_FIGURES, old, rounded)


def _rewritten(calls: CallBook, net: NoisyOr) -> CallBook:
    """Return call tables with the numbers of a net; a number that did not move stays as printed."""
    causes = {key: at for at, key in enumerate(calls.causes)}
    signs = {key: at for at, key in enumerate(calls.signs)}
    old = _net(calls)
    prior = _moved_only(old.prior, net.prior)
    leak, links = _moved_only(old.leak, net.leak), _moved_only(old.links, net.links)
    return replace(
        calls,
        causes={
            key: replace(one, weight=float(prior[at])) if prior[at] != old.prior[at] else one
            for (key, one), at in zip(calls.causes.items(), causes.values(), strict=True)
        },
        signs={
            key: replace(one, anyway=float(leak[at])) if leak[at] != old.leak[at] else one
            for (key, one), at in zip(calls.signs.items(), signs.values(), strict=True)
        },
        shows=tuple(
            one
            if (new := float(links[signs[one.sign], causes[one.cause]])) == one.strength
            else replace(one, strength=new, printed="")
            for one in calls.shows
        ),
    )


def _after(
    book: Book, cases: Sequence[ClosedCase], today: date, strength: float
) -> tuple[CallBook, Cases]:
    """Return the call tables after the cases, and the cases as they were counted."""
    fits = np.array([_applicable(book, one) for one in cases], dtype=np.bool_)
    fits = fits.reshape(len(cases), len(book.calls.causes))
    counted = _counted(book, cases, _weights(cases, today), fits)
    if not counted.weight.any():
        return book.calls, counted
    before = _net(book.calls)
    net = learned(before, counted, strength=strength, finds=FOUND)
    asked = (counted.if_there != counted.if_not).T @ counted.weight > 0.0
    leak = np.where(asked, net.leak, before.leak)
    prior = _shares(book.calls, before.prior, counted, fits, strength)
    return _rewritten(book.calls, NoisyOr(prior, net.links, leak)), counted


def _log_odds(chance: float) -> float:
    inner = min(max(chance, _LEAST), 1.0 - _LEAST)
    return math.log(inner / (1.0 - inner))


def _moved(old: float, new: float) -> float:
    return abs(_log_odds(new) - _log_odds(old))


def _change(where: tuple[str, str, str], old: float, new: float, cases: float) -> Iterator[Change]:
    if new != old:
        yield Change(*where, old, new, float(cases), _moved(old, new) > LARGE)


def _changes(old: CallBook, new: CallBook, cases: Cases) -> tuple[Change, ...]:
    share = shares_of(_net(old), cases)
    total = float(cases.weight.sum())
    causes = {key: at for at, key in enumerate(old.causes)}
    signs = {key: at for at, key in enumerate(old.signs)}
    found: list[Change] = []
    for key, cause in old.causes.items():
        found += _change(("causes", key, "weight"), cause.weight, new.causes[key].weight, total)
    for key, sign in old.signs.items():
        trials = share.leak_trials[signs[key]]
        found += _change(("signs", key, "anyway"), sign.anyway, new.signs[key].anyway, trials)
    for was, now in zip(old.shows, new.shows, strict=True):
        trials = share.link_trials[signs[was.sign], causes[was.cause]]
        where = ("shows", f"{was.cause} {was.sign}", "strength")
        found += _change(where, was.strength, now.strength, trials)
    return tuple(sorted(found, key=lambda one: -_moved(one.old, one.new)))


def _belief(calls: CallBook, known: Knowledge, chances: Floats, closed: ClosedCase) -> Floats:
    """Return the chance of each set of causes after what was said before the first act."""
    rows = {sign.id: at for at, sign in enumerate(known.signs)}
    belief = known.weights
    for key, said in _said(calls, closed.case).items():
        if key in rows:
            there, absent = _odds(known.signs[rows[key]], said)
            belief = belief * (chances[rows[key]] * there + (1.0 - chances[rows[key]]) * absent)
    total = float(belief.sum())
    return belief / total if total > 0.0 else known.weights


def _laid_out(
    book: Book, closed: ClosedCase, laid: dict[_Lamp, tuple[Knowledge, Floats] | None]
) -> tuple[Knowledge, Floats] | None:
    """Return what the book knows, and the chance of each sign under each set, worked out once."""
    lamp = book.lamps[closed.case.lamp]
    key = (_kinds(book, closed), lamp.family, closed.case.complaint)
    if key not in laid:
        try:
            known = knowledge_of(book.calls, *key, _MOST_SETS)
            laid[key] = known, sign_given(known.net, known.sets)
        except NothingKnownError:
            laid[key] = None
    return laid[key]


def _points(book: Book, cases: Sequence[ClosedCase]) -> list[tuple[float, float]]:
    """Return the chance of what was found, and the squared distance, for each case it has one."""
    laid: dict[_Lamp, tuple[Knowledge, Floats] | None] = {}
    points: list[tuple[float, float]] = []
    for closed in cases:
        found = _laid_out(book, closed, laid)
        if found is None or closed.confirmed not in WORTH:
            continue
        known, chances = found
        held = np.array([one.id in closed.causes for one in known.causes])
        same = (known.sets == held).all(axis=1)
        if same.any() and int(held.sum()) == len(closed.causes):
            belief = _belief(book.calls, known, chances, closed)
            off = belief @ known.sets.astype(np.float64) - held
            points.append((float(belief[same].sum()), float((off**2).sum())))
    return points


def _scores(points: Sequence[tuple[float, float]]) -> Scores | None:
    if not points:
        return None
    said = np.array([point[0] for point in points])
    pairs = np.stack([said, 1.0 - said], axis=1)
    log = log_score(pairs, np.zeros(len(said), dtype=np.intp))
    return Scores(len(points), log, float(np.mean([point[1] for point in points])))


def scored(book: Book, cases: Sequence[ClosedCase]) -> Scores | None:
    """Return how well a book foretells the confirmed causes of cases.

    Parameters
    ----------
    book : Book
        Lamps and call tables.
    cases : sequence of ClosedCase
        Closed cases; those without a confirmed cause are passed over.

    Returns
    -------
    Scores or None
        None where there is no case to score. Up to two causes at once are held possible.
    """
    return _scores(_points(book, cases))


def _held_out(
    book: Book, cases: Sequence[ClosedCase], today: date, strength: float
) -> tuple[Scores | None, Scores | None]:
    """Return the scores before and after, each case by tables that never saw it."""
    confirmed = [one for one in cases if one.confirmed in WORTH]
    if len(confirmed) < FOLDS:
        return None, None
    after: list[tuple[float, float]] = []
    for fold in range(FOLDS):
        rest = [one for at, one in enumerate(confirmed) if at % FOLDS != fold]
        calls, _ = _after(book, rest, today, strength)
        after += _points(replace(book, calls=calls), confirmed[fold::FOLDS])
    return _scores(_points(book, confirmed)), _scores(after)


def learned_from(
    book: Book, cases: Sequence[ClosedCase], today: date, strength: float = STRENGTH
) -> Learned:
    """Return what closed cases would change in the call tables.

    Parameters
    ----------
    book : Book
        Lamps, parts and the call tables as they are: what was believed before.
    cases : sequence of ClosedCase
        Closed cases, in any order.
    today : date
        The day they are weighed on.
    strength : float
        Cases that the number in the book counts for, each of them; what is seldom counts for
        :data:`FOUND` times it is met where that is more [cases].

    Returns
    -------
    Learned
        A proposal. Only confirmed cases move anything; a case bears on the causes and signs that
        apply to its lamp.

    Notes
    -----
    EM for the noisy OR with a Beta belief on every link
    (:func:`wickwright.chance.learning.learned`); a cause's weight is its
    share of the confirmed cases whose lamp can have it. A share of a few in a hundred is known by
    how often its cause was found, so its strength is counted in those cases: 0 of 74 then halves
    a share of 0.04, where ten cases in all would leave a tenth of it.
    """
    ordered = sorted(cases, key=written_closed)
    calls, counted = _after(book, ordered, today, strength)
    before, after = _held_out(book, ordered, today, strength)
    count = Counter(one.confirmed for one in ordered)
    confirmed = {kind: count[kind] for kind in Confirmed}
    changes, again = _changes(book.calls, calls, counted), _again(book, ordered)
    return Learned(calls, changes, confirmed, before, after, again)


def _again(book: Book, cases: Sequence[ClosedCase]) -> int:
    signed = max((one.day for one in book.revisions), default=None)
    return sum(
        signed is not None and one.closed <= signed and one.confirmed in WORTH for one in cases
    )
