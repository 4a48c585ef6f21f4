"""Laws of beliefs, questions and repairs that hold whatever the numbers."""

from __future__ import annotations

from itertools import combinations, permutations, product
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from wickwright.chance.acts import Repair, acts
from wickwright.chance.beliefs import Beliefs, Contradiction, clash, combined, entropy, lifts
from wickwright.chance.evidence import Ruler, Said, answers_given, measured
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.next_question import Question, best, edges_cut, gains, settled, stack
from wickwright.chance.noisy_or import NoisyOr, set_weights, sign_given, still_there
from wickwright.chance.repair import costs, expected_cost, steps

if TYPE_CHECKING:
    from wickwright.chance.acts import Acts
    from wickwright.chance.arrays import Floats, Ints
    from wickwright.chance.next_question import Questions

WIDTH = 8
CHANCES = st.floats(0.0, 1.0)
INNER = st.floats(0.01, 0.99)
SETTINGS = settings(max_examples=40, deadline=None)


def rows(many: int, inside: st.SearchStrategy[float] = INNER) -> st.SearchStrategy[Floats]:
    """Draw likelihoods over the hypotheses."""
    return arrays(np.float64, (many, WIDTH), elements=inside)


WEIGHTS = arrays(np.float64, WIDTH, elements=st.floats(0.01, 5.0))
CLASSES = arrays(np.intp, WIDTH, elements=st.integers(0, 2))
SAID = st.builds(Said, CHANCES, CHANCES, INNER)


@SETTINGS
@given(WEIGHTS, rows(4), st.permutations(range(4)))
def test_order_of_evidence(weights: Floats, heard: Floats, order: list[int]) -> None:
    """The same answers in another order would lead to other beliefs."""
    one = other = Beliefs(weights)
    for place in range(4):
        one, other = one.given(heard[place]), other.given(heard[order[place]])
    assert one.weights == pytest.approx(other.weights, rel=1e-12)
    assert one.weights.sum() == pytest.approx(1.0, rel=1e-14)
    at_once = combined(weights, list(heard))
    assert isinstance(at_once, Beliefs)
    assert at_once.weights == pytest.approx(one.weights, rel=1e-12)


@SETTINGS
@given(WEIGHTS, SAID, arrays(np.float64, WIDTH, elements=CHANCES))
def test_not_knowing_tells_nothing(weights: Floats, said: Said, sign: Floats) -> None:
    """'Don't know' would move a belief though it is as common with the sign as without."""
    answers = answers_given(said, sign)
    before = Beliefs(weights)
    assert answers.sum(axis=0) == pytest.approx(np.ones(WIDTH), rel=1e-12)
    assert before.given(answers[2]).weights == pytest.approx(before.weights, rel=1e-14)


@SETTINGS
@given(WEIGHTS, rows(2), CLASSES)
def test_what_a_question_tells(weights: Floats, heard: Floats, classes: Ints) -> None:
    """A gain would not be the expected fall of entropy, or a class tell more than all."""
    beliefs = Beliefs(weights)
    questions = stack([Question(np.stack([row, 1.0 - row]), 1.0) for row in heard])
    told, of_class = gains(beliefs, questions), gains(beliefs, questions, classes)
    for place, row in enumerate(heard):
        after = [(row @ beliefs.weights, beliefs.given(row))]
        after.append((1.0 - after[0][0], beliefs.given(1.0 - row)))
        fall = beliefs.entropy - sum(chance * then.entropy for chance, then in after)
        assert told[place] == pytest.approx(fall, abs=1e-10)
        before = entropy(beliefs.share(classes))
        by_class = before - sum(chance * entropy(then.share(classes)) for chance, then in after)
        assert of_class[place] == pytest.approx(by_class, abs=1e-10)
    assert (of_class <= told + 1e-10).all()


@SETTINGS
@given(WEIGHTS, rows(6), CLASSES, st.floats(0.3, 1.0))
def test_what_settled_calls_leave_open(
    weights: Floats, heard: Floats, classes: Ints, sure: float
) -> None:
    """A look would be put first for what is asked on, or more be spared than there is to ask."""
    beliefs = Beliefs(weights)
    tables = [part / part.sum(axis=0) for part in (heard[:2], heard[2:5], heard[[1, 5]])]
    questions = stack([Question(table, 1.0) for table in tables])
    left = settled(beliefs, questions, classes, sure)
    for place, table in enumerate(tables):
        spared = 0.0
        for answer in table:
            share: dict[int, float] = {}
            for weight, chance, of in zip(beliefs.weights, answer, classes, strict=True):
                share[int(of)] = share.get(int(of), 0.0) + float(weight * chance)
            total = sum(share.values())
            assume(abs(max(share.values()) / total - sure) > 1e-9)
            if max(share.values()) / total >= sure:
                spared -= sum(s * np.log2(s / total) for s in share.values())
        assert left[place] == pytest.approx(spared, abs=1e-10)
    whole = entropy(beliefs.share(classes))
    assert (gains(beliefs, questions, classes) + left <= whole + 1e-10).all()
    every = settled(beliefs, questions, classes, 0.0)
    assert gains(beliefs, questions, classes) + every == pytest.approx(whole, abs=1e-10)


@SETTINGS
@given(WEIGHTS, st.lists(st.integers(0, 2), min_size=WIDTH, max_size=WIDTH), CLASSES)
def test_edges_cut_by_sure_answers(weights: Floats, kinds: list[int], classes: Ints) -> None:
    """Pairs told apart would not be those of different classes that a sure answer parts."""
    beliefs = Beliefs(weights)
    answer = np.array([[float(kind == k) for kind in kinds] for k in range(3)])
    cut = edges_cut(beliefs, stack([Question(answer, 1.0)]), classes)[0]
    pairs = [(i, j) for i, j in combinations(range(WIDTH), 2) if classes[i] != classes[j]]
    w = beliefs.weights
    left = sum(
        (answer[k] @ w) * sum(w[i] * w[j] for i, j in pairs if kinds[i] == kinds[j] == k)
        for k in range(3)
    )
    assert cut == pytest.approx(sum(w[i] * w[j] for i, j in pairs) - left, abs=1e-12)


@SETTINGS
@given(WEIGHTS, st.lists(st.sets(st.integers(0, WIDTH - 1), min_size=1), min_size=1, max_size=5))
def test_clash_is_smallest(weights: Floats, allowed: list[set[int]]) -> None:
    """Answers would be called contradictory that are not, or more of them than clash."""
    heard = [np.array([float(h in ones) for h in range(WIDTH)]) for ones in allowed]
    outcome = combined(weights, heard)
    if set.intersection(*allowed):
        assert isinstance(outcome, Beliefs)
        return
    assert isinstance(outcome, Contradiction)
    together = [allowed[place] for place in outcome.clash]
    assert not set.intersection(*together)
    for leave in range(len(together)):
        rest = together[:leave] + together[leave + 1 :]
        assert not rest or set.intersection(*rest)


@SETTINGS
@given(WEIGHTS, rows(3))
def test_most_surprising_pair(weights: Floats, heard: Floats) -> None:
    """Another pair than the one least probable together would be asked about again."""
    w = weights / weights.sum()
    bits = {
        (i, j): np.log2((heard[i] * heard[j]) @ w) - np.log2(heard[i] @ w) - np.log2(heard[j] @ w)
        for i, j in combinations(range(3), 2)
    }
    least = min(bits.values())
    assume(abs(least) > 1e-9)
    found = clash(weights, list(heard))
    assert (len(found) == 2) == (least < 0.0)
    if found:
        assert bits[found[0], found[1]] == pytest.approx(least, abs=1e-10)
        assert lifts(weights, list(heard))[found] == pytest.approx(least, abs=1e-10)


@SETTINGS
@given(
    arrays(np.float64, 5, elements=INNER),
    arrays(np.float64, (3, 5), elements=CHANCES),
    arrays(np.float64, 3, elements=CHANCES),
)
def test_more_causes_show_more(prior: Floats, links: Floats, leak: Floats) -> None:
    """A cause more would make a sign less probable."""
    sets = fault_sets(5, 5)
    given_ = sign_given(NoisyOr(prior, links, leak), sets)
    assert set_weights(prior, sets).sum() == pytest.approx(1.0, rel=1e-12)
    assert set_weights(prior, sets) @ sets == pytest.approx(prior, rel=1e-9)
    place = {tuple(row): index for index, row in enumerate(sets.tolist())}
    for row in sets.tolist():
        for cause in range(5):
            more = [held or k == cause for k, held in enumerate(row)]
            assert (given_[:, place[tuple(more)]] >= given_[:, place[tuple(row)]] - 1e-12).all()


@SETTINGS
@given(
    arrays(np.float64, 4, elements=CHANCES), CHANCES, arrays(np.float64, (2, 4), elements=CHANCES)
)
def test_two_acts_one_after_the_other(links: Floats, leak: float, cures: Floats) -> None:
    """Two failed acts would not weigh as much as both done before one look."""
    sets = fault_sets(4, 4)
    left = 1.0 - cures[0]
    apart = still_there(links, leak, sets, cures[0]) * still_there(
        links, leak, sets, cures[1], left
    )
    both = still_there(links, leak, sets, 1.0 - left * (1.0 - cures[1]))
    assert apart == pytest.approx(both, abs=1e-9)


@SETTINGS
@given(st.floats(50.0, 400.0), st.floats(0.5, 10.0), st.floats(0.0, 0.1), st.floats(1.0, 30.0))
def test_a_measured_length(true: float, absolute: float, relative: float, off: float) -> None:
    """A value further off would be more probable, or the density not integrate to 1."""
    ruler = Ruler(absolute, relative, 0.02, 1000.0)
    near, far = (measured(true + d, ruler, np.array([true]))[0] for d in (off, 2.0 * off))
    assert near >= far
    grid = np.linspace(true - 500.0, true + 500.0, 20001)
    density = [measured(value, ruler, np.array([true]))[0] for value in grid[::20]]
    fine = measured(true, Ruler(absolute, relative), np.array([true]))[0]
    spread = np.hypot(absolute, relative * true)
    assert fine == pytest.approx(1.0 / (np.sqrt(2.0 * np.pi) * spread), rel=1e-12)
    if spread > 2.0:
        assert np.trapezoid(density, grid[::20]) == pytest.approx(1.0, abs=2e-3)


def _case(seed: int) -> tuple[Repair, Acts, Questions]:
    rng = np.random.default_rng(seed)
    sets = fault_sets(6, 3)
    links = rng.uniform(0.2, 0.95, 6)
    net = NoisyOr(rng.uniform(0.02, 0.2, 6), links[None, :], np.array([0.02]))
    heard = Beliefs(set_weights(net.prior, sets)).given(sign_given(net, sets)[0])
    able = acts(
        rng.uniform(2.0, 20.0, 6),
        np.where(np.eye(6) + (rng.random((6, 6)) < 0.15) > 0.0, 0.9, 0.0).astype(np.float64),
        [0, 0, 0, 1, 1, -1],
        [12.0, 6.0],
    )
    said = Said(0.9, 0.9, 0.1)
    held = sets.astype(np.float64)
    asked = [Question(answers_given(said, held[:, k]), 1.0 + k, (-1, 0)[k % 2]) for k in range(6)]
    return Repair.begun(heard, sets, links, 0.02, able), able, stack(asked)


def _asked(repair: Repair, able: Acts, asked: Questions, place: int) -> float:
    """Return the cost of a question, then of planning anew with its cluster open."""
    group = int(asked.clusters[place])
    total = float(asked.minutes[place]) + (able.entry[group] if group >= 0 else 0.0)
    for row in np.flatnonzero(asked.owner == place):
        after = repair.given(asked.rows[row], inside=group)
        total += asked.rows[row] @ repair.beliefs.weights * expected_cost(after, able, 60.0)[0]
    return float(total)


def _asked_later(repair: Repair, able: Acts, asked: Questions, act: int) -> float:
    """Return the cost of an act, then of the best question if it fails, all of it shut again."""
    after, group = repair.failed(able, act), int(able.cluster[act])
    paid = float(able.cost[act]) + (float(able.entry[group]) if group >= 0 else 0.0)
    least = min(_asked(after, able, asked, place) for place in range(len(asked)))
    return paid + (1.0 - float(repair.gone_after(able)[act])) * least


@pytest.mark.parametrize("seed", range(6))
def test_steps_with_clusters(seed: int) -> None:
    """A step would be worth less than handing over lets it be, or more than planning says."""
    repair, able, asked = _case(seed)
    found = steps(repair, able, asked, 60.0, most=None)
    cost, order = expected_cost(repair, able, 60.0)
    assert found.repair == pytest.approx(cost, rel=1e-12)
    assert found.plan == order
    assert found.repair <= 60.0 + 1e-9
    assert (found.ask >= asked.minutes - 1e-9).all()
    assert all(found.act[act] <= cost + 1e-9 for act in order[:1])
    for place in range(len(asked)):
        assert found.ask[place] == pytest.approx(_asked(repair, able, asked, place), rel=1e-9)
    for act in order[:1]:
        assert found.act[act] <= _asked_later(repair, able, asked, act) + 1e-9
    again = steps(repair, able, asked, 60.0, most=None)
    assert found.ranked() == again.ranked()


@pytest.mark.parametrize("seed", range(6))
def test_a_cluster_is_opened_once(seed: int) -> None:
    """Two acts done together would pay for opening twice, or for one look as for two."""
    repair, able, _ = _case(seed)
    apart = costs(repair, able, [0, 1], 0.0)
    together = costs(repair, able, [0, 1], 0.0, [True, False])
    inside = costs(repair.given(np.ones(len(repair.sets)), inside=0), able, [0, 1], 0.0)
    assert apart - inside == pytest.approx(np.full(len(apart), 12.0), rel=1e-12)
    cost = able.cost
    assert together == pytest.approx(np.full(len(apart), 12.0 + cost[0] + cost[1]), rel=1e-12)


def test_best_is_stable() -> None:
    """Of two equal questions now the one, now the other would be asked."""
    beliefs = Beliefs(np.ones(4))
    half = np.array([1.0, 1.0, 0.0, 0.0])
    same = [Question(np.stack([half, 1.0 - half]), 2.0) for _ in range(3)]
    cheap = Question(np.stack([0.8 * half + 0.1, 0.9 - 0.8 * half]), 0.5)
    idle = Question(np.full((2, 4), 0.5), 0.0)
    questions = stack([*same, cheap, idle])
    assert best(beliefs, questions, per_minute=False) == 0
    assert best(beliefs, questions) == 3
    assert best(beliefs, questions, among=[2, 1]) == 1
    assert best(beliefs, questions, among=[4]) is None
    assert best(beliefs, questions, np.zeros(4, dtype=np.intp)) is None


def _cheapest(repair: Repair, able: Acts, hand_over: float) -> float:
    """Return the least cost of up to four acts in any order with any looks between them."""
    w = repair.beliefs.weights
    return min(
        float(costs(repair, able, order, hand_over, [True, *looks]) @ w)
        for size in range(1, 5)
        for order in permutations(range(len(able)), size)
        for looks in product((True, False), repeat=size - 1)
    )


@pytest.mark.parametrize("seed", range(6))
def test_bundles_beside_every_order(seed: int) -> None:
    """Bundles by gain for cost would cost a twentieth more than the best orders and looks."""
    repair, able, _ = _case(seed)
    cost, _ = expected_cost(repair, able, 60.0)
    assert cost <= 1.05 * min(60.0, _cheapest(repair, able, 60.0))
