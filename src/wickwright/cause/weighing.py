"""What a case says about each set of causes: answers, things worked out, acts that failed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from wickwright.catalogue.call_records import State
from wickwright.cause.case import Act, Answer, Computed, Danger, Outcome, Said
from wickwright.chance.acts import Acts, Repair
from wickwright.chance.acts import acts as acts_of
from wickwright.chance.beliefs import Beliefs, ImpossibleEvidenceError, clash, lifts
from wickwright.chance.evidence import NO, UNSURE, YES, answers_given
from wickwright.chance.evidence import Said as Reliability
from wickwright.chance.noisy_or import NoisyOr, sign_given

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.catalogue.call_records import Remedy, Sign
    from wickwright.cause.case import Case, Event
    from wickwright.cause.costs import Costs, Offer
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.arrays import Floats
    from wickwright.chance.next_question import Questions

__all__ = [
    "CLUSTER",
    "COLD",
    "LIT",
    "Weighed",
    "acts_for",
    "as_answers",
    "reliability",
    "weighed",
    "worked_row",
]

COLD, LIT = 0, 1
"""Cost clusters: what is done to a cold lamp, and what to a burning one."""
CLUSTER = {State.COLD: COLD, State.LIT: LIT, State.ANY: -1}
"""The cluster that has to be open to ask after a sign."""
ODD = -2.0
"""Two answers that are this much less probable together than apart are said to clash [bit]."""

_ROW = {Said.YES: YES, Said.NO: NO, Said.UNSURE: UNSURE}


@dataclass(frozen=True, slots=True, eq=False)
class Weighed:
    """A case, weighed.

    Attributes
    ----------
    repair : Repair or None
        Beliefs and what was tried; None where what was said is impossible under the tables.
    answered : frozenset of str
        Signs that need not be asked any more.
    clash : tuple of Event
        Things said that seldom or never go together; empty where all goes together.
    """

    repair: Repair | None
    answered: frozenset[str]
    clash: tuple[Event, ...]


def reliability(sign: Sign) -> Reliability:
    """Return how well callers answer about a sign.

    Parameters
    ----------
    sign : Sign
        The sign.

    Returns
    -------
    chance.evidence.Said
        Its error model; 'don't know' says nothing about the sign.
    """
    return Reliability(sign.yes_right, sign.no_right, sign.unsure)


def _price(remedy: Remedy, offer: Offer | None, costs: Costs) -> float:
    """Return what a remedy costs without cooling or the second lighting [min]."""
    own = remedy.minutes + remedy.extra
    if offer is None:
        return own
    return own + (costs.unpriced if offer.price is None else offer.price / costs.coins_a_minute)


def acts_for(known: Knowledge, offers: Mapping[str, Offer], costs: Costs) -> Acts:
    """Return the remedies as acts, each followed by lighting the lamp and looking.

    Parameters
    ----------
    known : Knowledge
        Complaint and lamp.
    offers : mapping of str to Offer
        By remedy: what its parts cost; a remedy without an entry needs none.
    costs : Costs
        What steps cost.

    Returns
    -------
    Acts
        In the order of ``known.remedies`` [min].
    """
    cluster = [COLD if one.state is State.COLD else LIT for one in known.remedies]
    price = [_price(one, offers.get(one.id), costs) for one in known.remedies]
    return acts_of(price, known.cures, cluster, (costs.cooling, costs.lighting))


def as_answers(case: Case, signs: Mapping[str, Sign]) -> Iterator[Event]:
    """Yield the events of a case, a danger turned into the answer about its sign.

    Parameters
    ----------
    case : Case
        The case as it stands.
    signs : mapping of str to Sign
        Every sign of the book.

    Yields
    ------
    Event
        In order; a danger that the caller could not tell, or that no sign speaks of, is left out.
    """
    by_danger = {sign.danger: sign.id for sign in signs.values() if sign.danger}
    for event in case.events:
        if isinstance(event, Danger):
            if event.danger in by_danger and event.said is not Said.UNSURE:
                yield Answer(by_danger[event.danger], event.said)
        else:
            yield event


@dataclass(slots=True, eq=False)
class _Running:
    """The weighing as it goes."""

    known: Knowledge
    acts: Acts
    questions: Questions | None
    left: Floats
    rows: list[Floats]
    events: list[Event]
    answered: set[str]
    done: list[int]
    tried: list[tuple[int, ...]]
    inside: int = -1

    def looks_at(self, sign: Sign) -> None:
        """Leave the lamp as it had to be for a look: cold, or burning."""
        group = CLUSTER[sign.state]
        self.inside = self.inside if group < 0 else group

    def hear(self, event: Event, row: Floats) -> None:
        self.rows.append(row)
        self.events.append(event)


def _sign_row(run: _Running, place: int, said: Said) -> Floats:
    """Return how probable an answer is, with the causes as the acts so far have left them."""
    net, questions = run.known.net, run.questions
    if questions is not None and not run.tried:
        before: Floats = questions.rows[questions.starts[place] + _ROW[said]]
        return before
    one = NoisyOr(net.prior, net.links[place : place + 1] * run.left, net.leak[place : place + 1])
    there = sign_given(one, run.known.sets)[0]
    row: Floats = answers_given(reliability(run.known.signs[place]), there)[_ROW[said]]
    return row


def worked_row(known: Knowledge, event: Computed) -> Floats | None:
    """Return how probable what was worked out is under each set, up to a factor.

    Parameters
    ----------
    known : Knowledge
        Complaint and lamp.
    event : Computed
        What was worked out.

    Returns
    -------
    array or None
        Of each set (sets) [-], so that the cause has its chance in place of the one at large;
        None where the lamp cannot have the cause.
    """
    columns = [p for p, one in enumerate(known.causes) if one.id == event.cause]
    if not columns:
        return None
    held, prior = known.sets[:, columns[0]], float(known.net.prior[columns[0]])
    return np.where(held, event.chance * (1.0 - prior), (1.0 - event.chance) * prior)


def _take(run: _Running, event: Event) -> None:
    """Take one event into account."""
    known = run.known
    match event:
        case Answer(sign, said):
            place = next((p for p, one in enumerate(known.signs) if one.id == sign), None)
            run.answered.add(sign)
            if place is not None:
                run.looks_at(known.signs[place])
                run.hear(event, _sign_row(run, place, said))
        case Computed():
            row = worked_row(known, event)
            if row is not None:
                run.hear(event, row)
        case Act(remedy, outcome):
            place = next((p for p, one in enumerate(known.remedies) if one.id == remedy), None)
            if place is not None:
                run.done.append(place)
                if outcome is Outcome.STILL:
                    run.inside = -1
                    run.tried.append((len(run.rows), place))
                    run.left = run.left * (1.0 - run.acts.cures[place])


def weighed(
    case: Case,
    known: Knowledge,
    signs: Mapping[str, Sign],
    acts: Acts,
    shut: frozenset[str],
    questions: Questions | None = None,
) -> Weighed:
    """Weigh everything said, worked out and done in a case.

    Parameters
    ----------
    case : Case
        The case as it stands.
    known : Knowledge
        Complaint and lamp.
    signs : mapping of str to Sign
        Every sign of the book.
    acts : Acts
        Of :func:`acts_for`.
    shut : frozenset of str
        Remedies that cannot be done here, such as those whose part is not to be had.
    questions : Questions, optional
        The signs of ``known`` as questions, so that answers are looked up; worked out if left out.

    Returns
    -------
    Weighed
        Answers before an act describe the lamp before it and keep their weight; answers after
        it are read with what it cured taken away; an act that failed makes what it cures the
        less probable. A lamp that was let cool for one look, or lit for one, is so for the
        next step too, until an act is followed by lighting it.
    """
    run = _Running(known, acts, questions, np.ones(len(known.causes)), [], [], set(), [], [])
    for event in as_answers(case, signs):
        _take(run, event)
    run.answered.add(known.complaint.sign)
    try:
        repair: Repair | None = _repair(run, shut)
    except ImpossibleEvidenceError:
        repair = None
    return Weighed(repair, frozenset(run.answered), _clashing(run, impossible=repair is None))


def _repair(run: _Running, shut: frozenset[str]) -> Repair:
    known = run.known
    beliefs = Beliefs(known.weights)
    for row in run.rows:
        beliefs = beliefs.given(row)
    repair = Repair.begun(beliefs, known.sets, known.links, known.leak, run.acts)
    for _, place in run.tried:
        repair = repair.failed(run.acts, place)
    done = repair.done.copy()
    done[run.done] = True
    done[[p for p, one in enumerate(known.remedies) if one.id in shut]] = True
    return replace(repair, done=done, inside=run.inside)


def _clashing(run: _Running, *, impossible: bool) -> tuple[Event, ...]:
    """Return the events that do not go together, the most surprising pair of them."""
    told = [p for p, event in enumerate(run.events) if _tells(event)]
    if len(told) < 2:  # noqa: PLR2004 - a pair
        return ()
    rows = [run.rows[p] for p in told]
    found = clash(run.known.weights, rows)
    if not impossible and found:
        bits = float(lifts(run.known.weights, [rows[p] for p in found])[0, 1])
        if bits > ODD:
            return ()
    return tuple(run.events[told[p]] for p in found)


def _tells(event: Event) -> bool:
    return not (isinstance(event, Answer) and event.said is Said.UNSURE)
