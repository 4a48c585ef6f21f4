"""Ways to work a complaint through: what to ask, do or hand over next, from the same beliefs."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.calls.charts import BLANK

from wickwright.cause.case import Case
from wickwright.cause.costs import Costs, Offer
from wickwright.cause.next_step import near, questions_of, skipped_of
from wickwright.cause.weighing import acts_for, reliability, worked_row
from wickwright.chance.acts import Repair
from wickwright.chance.beliefs import Beliefs
from wickwright.chance.evidence import YES, answers_given
from wickwright.chance.next_question import gains
from wickwright.chance.noisy_or import NoisyOr, sign_given
from wickwright.chance.repair import Do, Step, expected_cost, steps

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from benchmarks.calls.charts import Chart

    from wickwright.cause.case import Computed
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.acts import Acts
    from wickwright.chance.arrays import Floats
    from wickwright.chance.next_question import Questions
    from wickwright.chance.repair import Steps

__all__ = ["ANSWERED", "ORACLE", "POLICIES", "Call", "Desk", "Policy", "desk"]

CHART, MOST, ENOUGH = 10, 25, 0.6
"""Questions of the chart fitted to a lamp; questions at most; chance of a cause at which asking stops [-]."""
_COSTS = Costs()
_HAND_OVER = Step(Do.HAND_OVER, 0, 0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Desk:
    """What a desk holds about one complaint of one lamp, made once."""

    known: Knowledge
    acts: Acts
    questions: Questions | None
    hand_over: float
    dangers: tuple[int, ...]
    start: Repair
    chart: Chart = BLANK


def desk(known: Knowledge, costs: Costs, part: float) -> Desk:
    """Return a desk.

    Parameters
    ----------
    known : Knowledge
        Complaint and lamp.
    costs : Costs
        What steps cost.
    part : float
        What the parts of a remedy weigh, the same for all [min].

    Returns
    -------
    Desk
        With every question and act laid out, and no chart.
    """
    price = round(part * costs.coins_a_minute)
    acts = acts_for(known, {r.id: Offer(price) for r in known.remedies if r.wish}, costs)
    dangers = tuple(place for place, sign in enumerate(known.signs) if sign.danger)
    start = Repair.begun(Beliefs(known.weights), known.sets, known.links, known.leak, acts)
    return Desk(known, acts, questions_of(known), costs.hand_over, dangers, start)


@dataclass(slots=True, eq=False)
class Call:
    """A call as it stands."""

    at: Desk
    repair: Repair
    asked: list[int] = field(default_factory=list)
    yes: set[str] = field(default_factory=set)

    @property
    def open(self) -> list[int]:
        """Questions not asked yet."""
        return [place for place in range(len(self.at.known.signs)) if place not in self.asked]

    def hears(self, sign: int, row: int) -> None:
        """Take an answer into account, with the causes as the acts so far have left them."""
        known, questions = self.at.known, self.at.questions
        assert questions is not None
        links, leak = known.net.links[sign : sign + 1], known.net.leak[sign : sign + 1]
        there = sign_given(NoisyOr(known.net.prior, links * self.repair.left, leak), known.sets)[0]
        likely = answers_given(reliability(known.signs[sign]), there)[row]
        group = int(questions.clusters[sign])
        self.repair = self.repair.given(likely, None if group < 0 else group)
        self.asked.append(sign)
        if row == YES:
            self.yes.add(known.signs[sign].id)

    def works_out(self, worked: Sequence[Computed]) -> None:
        """Take into account what was worked out, and what need not be asked after it."""
        known = self.at.known
        for row in (worked_row(known, one) for one in worked):
            self.repair = self.repair if row is None else self.repair.given(row)
        skipped = skipped_of(Case("", (), known.complaint.id, tuple(worked)), known)
        self.asked += [p for p, s in enumerate(known.signs) if s.id in {o.sign for o in skipped}]

    def fails(self, act: int) -> None:
        """Take into account that the complaint is still there after an act."""
        self.repair = self.repair.failed(self.at.acts, act)

    def entry(self, group: int) -> float:
        """Return what it takes now to cool or light the lamp for a step [min]."""
        shut = group >= 0 and group != self.repair.inside
        return float(self.at.acts.entry[group]) if shut else 0.0

    def weighed(self, *, short: bool) -> Steps:
        """Weigh every next step as the program does; acts may come before questions if short."""
        at, open_ = self.at, self.open
        return steps(self.repair, at.acts, at.questions, at.hand_over, among=open_, defer=short)

    def told(self) -> Floats:
        """Return what each question tells about the set of causes [bit]; 0 for those asked."""
        assert self.at.questions is not None
        told = gains(self.repair.beliefs, self.at.questions)
        told[self.asked] = 0.0
        return told

    def paid(self) -> Floats:
        """Return what each question costs now [min]."""
        questions = self.at.questions
        assert questions is not None
        return questions.minutes + [self.entry(int(group)) for group in questions.clusters]


def _repaired(call: Call) -> Step:
    """Act by chance of cure over cost, or hand over."""
    _, plan = expected_cost(call.repair, call.at.acts, call.at.hand_over, 1000)
    return Step(Do.ACT, plan[0], 0.0) if plan else _HAND_OVER


def ours(call: Call) -> Step:
    """Take the first of the program's ranked steps."""
    return call.weighed(short=False).ranked(near(call.repair, _COSTS))[0]


def short_call(call: Call) -> Step:
    """Take the first as the program ranks them for a short call."""
    return call.weighed(short=True).ranked()[0]


def by_information(call: Call) -> Step:
    """Ask for what tells most by the minute until one cause is likely, then repair."""
    sure = call.repair.beliefs.marginals(call.at.known.sets).max() >= ENOUGH
    if sure or len(call.asked) >= MOST or call.at.questions is None:
        return _repaired(call)
    worth = call.told() / call.paid()
    best = int(np.argmax(worth))
    return Step(Do.ASK, best, 0.0) if worth[best] > 1e-4 else _repaired(call)


def fitted_chart(call: Call) -> Step:
    """Ask the ten questions that tell most of this complaint of this lamp, then repair."""
    at = call.at
    if at.questions is None:
        return _repaired(call)
    minutes = at.questions.minutes + np.append(at.acts.entry, 0.0)[at.questions.clusters]
    worth = gains(at.start.beliefs, at.questions) / minutes
    worth[list(at.dangers)] = 0.0
    chart = np.argsort(-worth, kind="stable")[:CHART]
    left = [int(place) for place in chart if place not in call.asked]
    return Step(Do.ASK, left[0], 0.0) if left else _repaired(call)


def _on_chart(call: Call) -> list[tuple[int, str]]:
    """Return the questions of the complaint's chart that this lamp can be asked."""
    places = {sign.id: place for place, sign in enumerate(call.at.known.signs)}
    return [(places[sign], sign) for sign in call.at.chart.questions if sign in places]


def fixed_chart(call: Call) -> Step:
    """Ask the ten questions of the complaint's chart, whatever the lamp, then repair."""
    left = [place for place, _ in _on_chart(call) if place not in call.asked]
    return Step(Do.ASK, left[0], 0.0) if left else _repaired(call)


def paper_chart(call: Call) -> Step:
    """Go through the complaint's chart: at a yes do what it says, at the end what is left."""
    chart = call.at.chart
    remedies = {one.id: place for place, one in enumerate(call.at.known.remedies)}
    for place, sign in _on_chart(call):
        if place not in call.asked:
            return Step(Do.ASK, place, 0.0)
        for remedy in chart.boxes.get(sign, ()) if sign in call.yes else ():
            if remedy in remedies and not call.repair.done[remedies[remedy]]:
                return Step(Do.ACT, remedies[remedy], 0.0)
    left = [remedies[r] for r in chart.rest if r in remedies]
    left = [act for act in left if not call.repair.done[act]]
    return Step(Do.ACT, left[0], 0.0) if left else _HAND_OVER


def fixed_remedies(call: Call) -> Step:
    """Do the remedies in the order of the complaint alone, and hand over when none is left."""
    acts, start = call.at.acts, call.at.start
    entry = np.append(acts.entry, 0.0)[acts.cluster]
    order = np.argsort(-start.gone_after(acts) / (acts.cost + entry), kind="stable")
    left = [int(act) for act in order if not call.repair.done[act]]
    return Step(Do.ACT, left[0], 0.0) if left else _HAND_OVER


def oracle(call: Call) -> Step:
    """Repair, knowing the causes; the beliefs of the call have to be on them already."""
    return _repaired(call)


@dataclass(frozen=True, slots=True)
class Policy:
    """A way of working calls through.

    Attributes
    ----------
    name : str
        In the tables.
    choose : callable
        The next step.
    works_out : bool
        Whether it is told what the desk works out before it asks.
    chart : bool
        Whether it is a flow chart, beside which ours are measured.
    """

    name: str
    choose: Callable[[Call], Step]
    works_out: bool = False
    chart: bool = False


ANSWERED = Policy("every answer for nothing, then p/c", _repaired, works_out=True)
ORACLE = Policy("oracle that knows the causes", oracle)
POLICIES = (
    Policy("ours", ours, works_out=True),
    Policy("ours, short call", short_call, works_out=True),
    Policy("ours, nothing worked out", ours),
    Policy("information by the minute until 0.6, then p/c", by_information),
    Policy("chart fitted to the lamp, then p/c", fitted_chart, chart=True),
    Policy("fixed chart, then p/c", fixed_chart, chart=True),
    Policy("fixed chart, fixed acts", paper_chart, chart=True),
    Policy("p/c, no questions", _repaired),
    Policy("remedies in a fixed order", fixed_remedies),
)
