"""What to do next about a case: the step after which the lamp burns well at the least cost."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from wickwright.catalogue.call_records import State
from wickwright.cause.case import Act, Answer, Computed, Outcome, said_both_ways
from wickwright.cause.costs import Costs
from wickwright.cause.gate import gate_of
from wickwright.cause.weighing import CLUSTER, acts_for, reliability, weighed
from wickwright.chance.evidence import answers_given
from wickwright.chance.next_question import Question, stack
from wickwright.chance.noisy_or import sign_given
from wickwright.chance.repair import Do as Doing
from wickwright.chance.repair import steps as every_step

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickwright.catalogue.call_records import CallBook
    from wickwright.cause.case import Case, Event
    from wickwright.cause.costs import Offer
    from wickwright.cause.gate import Gate
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.acts import Acts, Repair
    from wickwright.chance.arrays import Floats
    from wickwright.chance.next_question import Questions
    from wickwright.chance.repair import Steps

__all__ = [
    "Advice",
    "Do",
    "Likely",
    "Skipped",
    "Step",
    "advise",
    "near",
    "questions_of",
    "skipped_of",
]


class Do(StrEnum):
    """Kinds of step."""

    ASK = "ask"
    ACT = "act"
    BENCH = "bench"


@dataclass(frozen=True, slots=True)
class Step:
    """One thing that could be done next.

    Attributes
    ----------
    do : Do
        Ask after a sign, do a remedy, or hand over to the bench.
    key : str
        The sign or the remedy; blank for the bench.
    minutes : float
        Expected until the lamp burns well, if this is done next [min].
    own : float
        What the step itself takes, without cooling or lighting [min].
    state : State
        What the lamp must be to do it.
    lit : bool
        True if the lamp burns during the step or is lit after it to see what came of it.
    about : tuple of str
        Causes it speaks to, most telling first.
    """

    do: Do
    key: str
    minutes: float
    own: float
    state: State
    lit: bool
    about: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Likely:
    """A cause, and how probable it is that it makes the complaint now [-]."""

    cause: str
    chance: float


@dataclass(frozen=True, slots=True)
class Skipped:
    """A sign that is not asked after, because a cause of it was worked out."""

    sign: str
    cause: str
    because: str


@dataclass(frozen=True, slots=True)
class Advice:
    """What a case comes to as it stands.

    Attributes
    ----------
    gate : Gate
        Whether the lamp may burn; comes before everything else.
    steps : tuple of Step
        What may be done next, cheapest expected end first, but while no cause is clear a question
        before what is nearly as dear; nothing that needs a flame while the gate is shut.
    causes : tuple of Likely
        Most probable first: what is behind the complaint, not all that may be wrong besides.
    plan : tuple of str
        Remedies in order if nothing more is asked, before the bench if all fail.
    clash : tuple of Event
        Things said that do not go together; ask again before acting on them. Where they cannot
        both be so, no cause is named, and the steps are to ask again or the bench.
    skipped : tuple of Skipped
        What is not asked, and why.
    closed : bool
        True when a remedy has cured it.
    """

    gate: Gate
    steps: tuple[Step, ...]
    causes: tuple[Likely, ...]
    plan: tuple[str, ...]
    clash: tuple[Event, ...] = ()
    skipped: tuple[Skipped, ...] = ()
    closed: bool = False

    @property
    def best(self) -> Step | None:
        """The step to take; None while a danger stands first, or when the case is closed."""
        return None if self.closed or not self.gate.open else next(iter(self.steps), None)


_SHOWN = 4
_TELLING = 0.005
_PROBABLY = 0.5


def questions_of(known: Knowledge) -> Questions | None:
    """Lay the signs of a complaint side by side as questions; do it once for a case.

    Parameters
    ----------
    known : Knowledge
        Complaint and lamp.

    Returns
    -------
    Questions or None
        In the order of ``known.signs``; None where there are none.
    """
    if not known.signs:
        return None
    there = sign_given(known.net, known.sets)
    return stack(
        [
            Question(answers_given(reliability(sign), row), sign.minutes, CLUSTER[sign.state])
            for sign, row in zip(known.signs, there, strict=True)
        ]
    )


def _computed(case: Case) -> dict[str, Computed]:
    return {one.cause: one for one in case.events if isinstance(one, Computed)}


def skipped_of(case: Case, known: Knowledge) -> tuple[Skipped, ...]:
    """Return the signs that only repeat what was worked out about a cause.

    Parameters
    ----------
    case : Case
        The case as it stands.
    known : Knowledge
        Its complaint and lamp.

    Returns
    -------
    tuple of Skipped
        Signs all of whose causes have been worked out: they tell nothing more.
    """
    worked = _computed(case)
    found = []
    for place, sign in enumerate(known.signs):
        makers = [known.causes[c].id for c in np.flatnonzero(known.net.links[place])]
        if makers and all(maker in worked for maker in makers):
            found.append(Skipped(sign.id, makers[0], worked[makers[0]].because))
    return tuple(found)


def _most(known: Knowledge, pull: Floats) -> tuple[str, ...]:
    """Return the causes that are pulled at most."""
    order = np.argsort(-pull, kind="stable")[:_SHOWN]
    return tuple(known.causes[c].id for c in order if pull[c] > _TELLING)


def _steps(
    known: Knowledge, acts: Acts, repair: Repair, found: Steps, within: float
) -> tuple[Step, ...]:
    in_play, made = repair.beliefs.marginals(known.sets), []
    for one in found.ranked(within):
        do, which, cost = one.do, one.which, one.cost
        if do is Doing.ASK:
            sign = known.signs[which]
            lit, about = sign.state is State.LIT, _most(known, known.net.links[which] * in_play)
            step = Step(Do.ASK, sign.id, cost, sign.minutes, sign.state, lit, about)
        elif do is Doing.ACT:
            remedy, about = known.remedies[which], _most(known, known.cures[which] * in_play)
            own = float(acts.cost[which])
            step = Step(Do.ACT, remedy.id, cost, own, remedy.state, lit=True, about=about)
        else:
            step = Step(Do.BENCH, "", cost, cost, State.ANY, lit=False, about=())
        made.append(step)
    return tuple(made)


def _likely(known: Knowledge, repair: Repair) -> tuple[Likely, ...]:
    chances = repair.behind()
    order = np.argsort(-chances, kind="stable")
    return tuple(Likely(known.causes[c].id, float(chances[c])) for c in order)


def _open(known: Knowledge, gone: Sequence[str] | frozenset[str]) -> tuple[int, ...]:
    return tuple(p for p, sign in enumerate(known.signs) if sign.id not in gone)


def advise(
    case: Case,
    known: Knowledge,
    calls: CallBook,
    offers: Mapping[str, Offer],
    costs: Costs | None = None,
    questions: Questions | None = None,
) -> Advice:
    """Say what a case comes to as it stands, and what to do next.

    Parameters
    ----------
    case : Case
        The case as it stands.
    known : Knowledge
        Its complaint and lamp.
    calls : CallBook
        The call tables of the book.
    offers : mapping of str to Offer
        By remedy: what its parts cost, or that they are not to be had; a remedy without an
        entry needs no part.
    costs : Costs, optional
        What steps cost; the defaults if left out.
    questions : Questions, optional
        Of :func:`questions_of`, so that they are laid out once.

    Returns
    -------
    Advice
        Every step that may be offered, ranked.
    """
    costs = costs or Costs()
    questions = questions_of(known) if questions is None else questions
    gate = gate_of(case, calls)
    shut = frozenset(key for key, offer in offers.items() if not offer.to_be_had)
    acts = acts_for(known, offers, costs)
    seen = weighed(case, known, calls.signs, acts, shut, questions)
    skipped = skipped_of(case, known)
    cured = any(isinstance(e, Act) and e.outcome is Outcome.CURED for e in case.events)
    twice = said_both_ways(case.events)
    if seen.repair is None or twice:
        again = _again(known, twice or seen.clash, costs)
        return Advice(gate, gate.lets(again), (), (), twice or seen.clash, skipped, cured)
    gone = seen.answered | {one.sign for one in skipped}
    found = every_step(
        seen.repair,
        acts,
        questions,
        costs.hand_over,
        among=_open(known, gone),
        defer=costs.short_call,
    )
    return Advice(
        gate=gate,
        steps=gate.lets(_steps(known, acts, seen.repair, found, near(seen.repair, costs))),
        causes=_likely(known, seen.repair),
        plan=tuple(known.remedies[p].id for p in found.plan),
        clash=seen.clash,
        skipped=skipped,
        closed=cured,
    )


def near(repair: Repair, costs: Costs) -> float:
    """Return how much dearer than the cheapest step a question may be that comes before it.

    Parameters
    ----------
    repair : Repair
        The repair in hand.
    costs : Costs
        What steps cost.

    Returns
    -------
    float
        Something while no cause is probably behind the complaint; 0 once one is, and for a short
        call [min].
    """
    clear = float(repair.behind().max(initial=0.0)) >= _PROBABLY
    return 0.0 if clear or costs.short_call else costs.near


def _again(known: Knowledge, clash: Sequence[Event], costs: Costs) -> tuple[Step, ...]:
    """Return what is done where what was said is impossible under the tables: no guess is made.

    The signs that clash are asked after once more; then there is only the bench.
    """
    signs = {one.sign for one in clash if isinstance(one, Answer)}
    asks = [
        Step(
            Do.ASK,
            sign.id,
            sign.minutes + costs.hand_over,
            sign.minutes,
            sign.state,
            lit=sign.state is State.LIT,
            about=(),
        )
        for sign in known.signs
        if sign.id in signs
    ]
    bench = Step(Do.BENCH, "", costs.hand_over, costs.hand_over, State.ANY, lit=False, about=())
    return (*asks, bench)
