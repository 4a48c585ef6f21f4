"""What a call about a lamp that burns badly costs, by several ways of working it through.

Run as ``python -m benchmarks.calls.diagnosing [--callers N] [--seed N] [--off SD]``. Every policy
meets the same callers, drawn from the demo book's own tables; all that chance decides about a
caller is drawn once. The seven questions about dangers come first, cost every policy the same and
are not counted; their answers are. Calls that a danger sends to the bench are left out. A true
cause is one that holds and makes the complaint; where none does, its rank is not counted.

Callers live somewhere, and some lamps have a part of another: what the desk works out from that
before it asks, ours are told and the others are not. Of the charts, the *fixed* ones are on paper,
one for each complaint, with the same ten questions in the same order for every lamp; one then acts
by chance over cost given all the answers, the other does what stands beside each yes and then what
stands at the end. The chart *fitted to the lamp* has its ten questions picked for this very lamp.

With *every answer for nothing* all questions are answered before the first act and cost nothing:
what any way of asking could save at most, its acts planned as ours are.

Columns: share in which the first act cures, that end at the bench, in which a true cause stands
first and among the first three before the first act or the bench; expected calibration error of
what is said to make the complaint, of the likeliest of it, and of what is said to hold, then; time
of a step, wall p50 and p95, and processor p95.
"""

from __future__ import annotations

import argparse
import time
from collections import Counter
from dataclasses import dataclass, field, replace
from functools import cache
from typing import TYPE_CHECKING

import numpy as np
from benchmarks.calls.charts import chart
from benchmarks.calls.places import Lives, lives_at, places
from benchmarks.calls.policies import ANSWERED, ORACLE, POLICIES, Call, desk
from benchmarks.calls.troubled import Lamp, as_it_is, caller
from tests.support.demo import demo

from wickwright.cause.case import Answer, Case, Danger, Said
from wickwright.cause.costs import Costs
from wickwright.cause.dangers import GUARDS
from wickwright.cause.knowledge import NothingKnownError, knowledge_of
from wickwright.cause.next_step import advise, questions_of
from wickwright.chance.beliefs import Beliefs
from wickwright.chance.evidence import YES
from wickwright.chance.repair import Do
from wickwright.chance.scores import calibration

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from benchmarks.calls.charts import Chart
    from benchmarks.calls.policies import Desk, Policy
    from benchmarks.calls.troubled import Caller

    from wickwright.catalogue.records import Book
    from wickwright.cause.knowledge import Knowledge
    from wickwright.chance.arrays import Bools, Floats
    from wickwright.chance.repair import Step
    from wickwright.fit.compiled import Compiled

__all__ = [
    "Group",
    "Setting",
    "charts_of",
    "drawn",
    "lit_while_shut",
    "main",
    "troubles",
    "worked_through",
]

SAID = (Said.YES, Said.NO, Said.UNSURE)
PLACES = 60
"""Places worked out for each lamp [-]."""


@dataclass(frozen=True, slots=True)
class Setting:
    """What a repair at the bench and the parts of a remedy weigh [min]."""

    hand_over: float
    part: float


SETTINGS = (Setting(90.0, 5.0), Setting(180.0, 25.0))


@dataclass(slots=True, eq=False)
class Told:
    """How one call went, and what was believed before the first act."""

    minutes: float = 0.0
    questions: int = 0
    acts: int = 0
    cured: bool = False
    first: bool = False
    rank: int = 0
    wall: list[float] = field(default_factory=list)
    busy: list[float] = field(default_factory=list)
    behind: Floats = field(default_factory=lambda: np.empty(0))
    makes: Bools = field(default_factory=lambda: np.empty(0, dtype=np.bool_))
    chances: Floats = field(default_factory=lambda: np.empty(0))
    faults: Bools = field(default_factory=lambda: np.empty(0, dtype=np.bool_))


def _kinds(book: Book, lamp: str) -> frozenset[str]:
    return frozenset(book.parts[part].kind for part in book.lamps[lamp].as_sold)


def _commonest(book: Book) -> Iterator[tuple[str, float]]:
    """Yield the lamp of each family that most people have, and how many have any of it."""
    found: dict[str, list[tuple[int, str]]] = {}
    for lamp in book.lamps.values():
        found.setdefault(lamp.family, []).append((lamp.in_use or 1, lamp.id))
    for lamps in found.values():
        yield max(lamps)[1], float(sum(many for many, _ in lamps))


def troubles(book: Book) -> tuple[list[tuple[str, str]], Floats]:
    """Return every lamp and complaint that go together, and how often callers have them.

    Parameters
    ----------
    book : Book
        With tables of causes.

    Returns
    -------
    list of (str, str)
        Lamp and complaint: of each family the lamp that most people have.
    array
        Share of each [-]: by the lamps in use, and by how often causes make the complaint.
    """
    found, shares = [], []
    for lamp, many in _commonest(book):
        for complaint in book.calls.complaints:
            family = book.lamps[lamp].family
            try:
                known = knowledge_of(book.calls, _kinds(book, lamp), family, complaint, 1)
            except NothingKnownError:
                continue
            found.append((lamp, complaint))
            shares.append(many * (known.leak + float(known.net.prior @ known.links)))
    return found, np.array(shares) / np.sum(shares)


def _rank(behind: Floats, makes: Bools) -> int:
    """Return the place of the first cause that makes the complaint, 1 the best; 0 for none."""
    true = np.flatnonzero(makes[np.argsort(-behind, kind="stable")])
    return int(true[0]) + 1 if true.size else 0


def _note(told: Told, call: Call, who: Caller) -> None:
    told.behind, told.makes = call.repair.behind(), who.faults & who.complains
    told.rank = _rank(told.behind, told.makes)
    told.chances = call.repair.beliefs.marginals(call.at.known.sets)
    told.faults = who.faults


def worked_through(at: Desk, who: Caller, policy: Policy) -> Told:
    """Work a call through to a cure or the bench.

    Parameters
    ----------
    at : Desk
        What the desk knows.
    who : Caller
        Who called.
    policy : Policy
        How it is worked through.

    Returns
    -------
    Told
        How it went.
    """
    lamp, told, call = Lamp.of(who), Told(), Call(at, at.start)
    if policy.works_out:
        call.works_out(who.worked)
    for sign in at.dangers:
        call.hears(sign, lamp.says(sign))
    if policy is ANSWERED:
        for sign in call.open:
            call.hears(sign, lamp.says(sign))
        call.repair = replace(call.repair, inside=at.start.inside)
    if policy is ORACLE:
        true = (at.known.sets == who.faults).all(axis=1).astype(np.float64)
        call.repair = replace(at.start, beliefs=Beliefs(true))
    while not told.cured:
        wall, busy = time.perf_counter(), time.process_time()
        step = policy.choose(call)
        told.wall.append(time.perf_counter() - wall)
        told.busy.append(time.process_time() - busy)
        if step.do is not Do.ASK and not told.acts:
            _note(told, call, who)
        if step.do is Do.HAND_OVER:
            told.minutes += at.hand_over
            break
        _taken(step, call, lamp, told)
    return told


def _taken(step: Step, call: Call, lamp: Lamp, told: Told) -> None:
    """Ask or act, and note what came of it."""
    at = call.at
    if step.do is Do.ASK:
        assert at.questions is not None
        told.minutes += float(call.paid()[step.which])
        told.questions += 1
        call.hears(step.which, lamp.says(step.which))
        return
    told.minutes += float(at.acts.cost[step.which]) + call.entry(int(at.acts.cluster[step.which]))
    told.acts += 1
    told.cured = lamp.treated(step.which)
    told.first = told.cured and told.acts == 1
    if not told.cured:
        call.fails(step.which)


def lit_while_shut(book: Book, lamp: str, known: Knowledge, who: Caller, danger: str) -> int:
    """Count the steps with a flame that are offered while the gate is shut.

    Parameters
    ----------
    book : Book
        The fit book.
    lamp : str
        Model number.
    known : Knowledge
        Complaint and lamp.
    who : Caller
        Who called.
    danger : str
        A danger that is there, whatever the caller's lamp shows.

    Returns
    -------
    int
        Lit steps offered before every danger was asked about, and after the danger was found,
        with three more questions answered; 0 where the gate holds.
    """
    case, questions, lit = Case(lamp, (), known.complaint.id), questions_of(known), 0
    here = Lamp.of(who)
    keys = {sign.id: place for place, sign in enumerate(known.signs)}
    for guard in [*GUARDS, None, None, None]:
        found = advise(case, known, book.calls, {}, None, questions)
        assert not found.gate.open
        lit += sum(step.lit for step in found.steps) + (found.best is not None)
        asks = [step.key for step in found.steps if step.key in keys]
        if guard is not None:
            case = case.then(Danger(guard, Said.YES if guard == danger else Said.NO))
        elif asks:
            case = case.then(Answer(asks[0], SAID[here.says(keys[asks[0]])]))
    return lit


def _benched(at: Desk, who: Caller) -> bool:
    """Say whether a danger that no call can clear is told of, and the call ends at the bench."""
    here = Lamp.of(who)
    hard = {guard.danger for guard in GUARDS.values() if not guard.clears}
    return any(at.known.signs[s].danger in hard and here.says(s) == YES for s in at.dangers)


def _spread(values: Sequence[float] | Floats) -> str:
    found = np.asarray(values, dtype=np.float64)
    return f"{found.mean():7.3g} ±{found.std() / max(found.size, 1) ** 0.5:.2g}".ljust(15)


def _share(values: Iterable[bool]) -> str:
    found = np.array(list(values), dtype=np.float64)
    error = (found.mean() * (1.0 - found.mean()) / max(found.size, 1)) ** 0.5
    return f"{100 * found.mean():5.1f} ±{100 * error:.1f}".ljust(12)


def _row(name: str, told: Sequence[Told]) -> str:
    behind, makes, said, truth = (
        np.concatenate([getattr(one, what) for one in told])
        for what in ("behind", "makes", "chances", "faults")
    )
    best = np.array([one.behind.max() for one in told])
    right = np.array([one.makes[int(np.argmax(one.behind))] for one in told])
    known = [one.rank for one in told if one.rank]
    wall = 1e3 * np.array([s for one in told for s in one.wall])
    busy = 1e3 * np.array([s for one in told for s in one.busy])
    return "".join(
        [
            f"{name:<46}",
            _spread([one.minutes for one in told]),
            _spread([float(one.questions) for one in told]),
            _spread([float(one.acts) for one in told]),
            _share(one.first for one in told),
            _share(not one.cured for one in told),
            _share(rank == 1 for rank in known),
            _share(rank <= 3 for rank in known),
            f"{calibration(behind, makes).error:7.4f}",
            f"{calibration(best, right).error:7.3f}",
            f"{calibration(said, truth).error:7.4f}",
            f"{np.quantile(wall, 0.5):7.1f}{np.quantile(wall, 0.95):7.1f}",
            f"{np.quantile(busy, 0.95):7.1f}",
        ]
    )


HEAD = (
    f"{'':<46}{'minutes':<15}{'questions':<15}{'acts':<15}{'1st cures %':<12}{'bench %':<12}"
    f"{'first %':<12}{'in 3 %':<12}{'  ECE':>7}{' ECE 1':>7}{'holds':>7}{'p50 ms':>7}{'p95':>7}{'busy':>7}"
)


@dataclass(frozen=True, slots=True, eq=False)
class Group:
    """Callers with one complaint of one lamp."""

    lamp: str
    known: Knowledge
    callers: list[Caller]


def charts_of(book: Book, complaint: str, setting: Setting) -> Chart:
    """Return the flow chart of a complaint, over all the lamps that can have it.

    Parameters
    ----------
    book : Book
        With tables of causes.
    complaint : str
        Its key.
    setting : Setting
        What the bench and parts weigh.

    Returns
    -------
    Chart
        The same for every lamp. Two causes at once are taken to be possible.
    """
    found, shares = troubles(book)
    return chart(
        (
            (
                float(share),
                desk(
                    knowledge_of(
                        book.calls, _kinds(book, lamp), book.lamps[lamp].family, complaint, 2
                    ),
                    Costs(hand_over=setting.hand_over),
                    setting.part,
                ),
            )
            for (lamp, one), share in zip(found, shares, strict=True)
            if one == complaint
        ),
        setting.hand_over,
    )


def drawn(
    compiled: Compiled, many: int, seed: int, off: float, homes: int = PLACES
) -> Iterator[Group]:
    """Yield callers, those with one complaint of one lamp together.

    Parameters
    ----------
    compiled : Compiled
        A fit book with tables of causes.
    many : int
        How many.
    seed : int
        Fixes them.
    off : float
        Standard deviation of the log-odds by which the book is off.
    homes : int
        Places worked out for each lamp, of which its callers have one each.

    Yields
    ------
    Group
        In the order of lamps and complaints.
    """
    book, rng = compiled.book, np.random.default_rng(seed)
    moves, here = np.random.default_rng(seed + 2), {}
    found, shares = troubles(book)
    counts = Counter(int(place) for place in rng.choice(len(found), size=many, p=shares))
    for place, count in sorted(counts.items()):
        lamp, complaint = found[place]
        family = book.lamps[lamp].family
        known = knowledge_of(book.calls, _kinds(book, lamp), family, complaint)
        true = as_it_is(known, off, rng)
        people = [caller(true, rng) for _ in range(count)]
        if lamp not in here:
            here[lamp] = places(compiled, lamp, homes, moves)
        lives = Lives.of(true, here[lamp])
        people = [replace(one, worked=lives_at(lives, one.faults, moves)) for one in people]
        yield Group(lamp, known, people)


def _ratio(ours: Sequence[Told], others: Sequence[Told]) -> str:
    """Return the ratio of mean minutes, and its standard error on the same callers."""
    mine = np.array([one.minutes for one in ours])
    theirs = np.array([one.minutes for one in others])
    ratio = mine.mean() / theirs.mean()
    error = (mine - ratio * theirs).std() / theirs.mean() / mine.size**0.5
    return f"{ratio:.2f} ±{error:.2f}"


def _ratios(told: dict[str, list[Told]]) -> str:
    others = [policy.name for policy in POLICIES if policy.chart]
    others += [ANSWERED.name, ORACLE.name]
    return "\n".join(
        f"{name}: "
        + ", ".join(f"{_ratio(told[name], told[other])} of the {other}" for other in others)
        for name in told
        if name.startswith("ours")
    )


def main(arguments: Sequence[str] | None = None) -> None:
    """Print the tables."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--callers", type=int, default=300)
    options.add_argument("--seed", type=int, default=7)
    options.add_argument("--off", type=float, default=0.0, help="log-odds the book is off by")
    given = options.parse_args(arguments)
    book = demo().book
    ways = [*POLICIES, ANSWERED, ORACLE]
    told: dict[Setting, dict[str, list[Told]]] = {
        setting: {policy.name: [] for policy in ways} for setting in SETTINGS
    }
    charts = cache(lambda complaint, setting: charts_of(book, complaint, setting))
    lit, seen, benched = 0, 0, 0
    rng = np.random.default_rng(given.seed + 1)
    for group in drawn(demo(), given.callers, given.seed, given.off):
        desks = [
            replace(
                desk(group.known, Costs(hand_over=s.hand_over), s.part),
                chart=charts(group.known.complaint.id, s),
            )
            for s in SETTINGS
        ]
        for who in group.callers:
            lit += lit_while_shut(book, group.lamp, group.known, who, str(rng.choice(list(GUARDS))))
            seen += 1
            if _benched(desks[0], who):
                benched += 1
                continue
            for setting, at in zip(SETTINGS, desks, strict=True):
                for policy in ways:
                    told[setting][policy.name].append(worked_through(at, who, policy))
    print(f"{seen} callers, seed {given.seed}; {benched} sent to the bench by a danger, left out")
    print(f"lit steps offered while the gate is shut: {lit} (over all callers)")
    for setting, calls in told.items():
        print(f"\nbench {setting.hand_over:g} min, parts {setting.part:g} min\n{HEAD}")
        for policy in ways:
            print(_row(policy.name, calls[policy.name]))
        print(_ratios(calls))
        some = {name: [one for one in each if one.rank] for name, each in calls.items()}
        share = 100 * len(some["ours"]) / len(calls["ours"])
        print(f"where a cause of the book makes the complaint ({share:.0f} % of the calls):")
        print(_ratios(some))


if __name__ == "__main__":
    main()
