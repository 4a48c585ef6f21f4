"""Published networks and other engines against enumerated hypotheses."""

from __future__ import annotations

import warnings
from fractions import Fraction
from itertools import product
from typing import TYPE_CHECKING

import numpy as np
import pytest
from tests.support.networks import Network, noisy_or_network, shipped
from tests.support.quickscore import posteriors

from wickwright.chance.beliefs import Beliefs
from wickwright.chance.fault_sets import fault_sets
from wickwright.chance.noisy_or import NoisyOr, set_weights, sign_given

with warnings.catch_warnings():  # both warn of their own making when they are imported
    warnings.simplefilter("ignore")
    import pyagrum
    from pgmpy.factors.discrete import TabularCPD
    from pgmpy.inference import VariableElimination
    from pgmpy.models import DiscreteBayesianNetwork

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickwright.chance.arrays import Floats

ASIA_CAUSES = ("asia", "smoke", "tub", "lung", "bronc")
ASIA_STATES = np.array(list(product((True, False), repeat=5)))

# Lauritzen and Spiegelhalter 1988 (tables as a library ships them), enumerated in fractions.
ASIA = [
    ({}, "1", {"tub": "13/1250", "lung": "11/200", "bronc": "9/20"}),
    (
        {"dysp": "yes"},
        "2179853/5000000",
        {
            "tub": "3160/167681",
            "lung": "224000/2179853",
            "bronc": "9089631/10899265",
            "smoke": "1382020/2179853",
        },
    ),
    (
        {"asia": "yes", "dysp": "yes"},
        "36011/8000000",
        {"tub": "3160/36011", "lung": "3584/36011", "bronc": "146097/180055"},
    ),
    (
        {"asia": "yes", "dysp": "yes", "xray": "no"},
        "14052593/4000000000",
        {
            "tub": "31600/14052593",
            "lung": "35840/14052593",
            "bronc": "12124026/14052593",
            "smoke": "8494960/14052593",
        },
    ),
]
EITHER = ["16207/250000", "1313752/10899265", "32824/180055", "65648/14052593"]


def _asia_prior() -> Floats:
    asia, smoke, tub, lung, bronc = ASIA_STATES.T
    weights: Floats = np.where(asia, 0.01, 0.99) * 0.5
    for holds, cause, yes, no in (
        (tub, asia, 0.05, 0.01),
        (lung, smoke, 0.1, 0.01),
        (bronc, smoke, 0.6, 0.3),
    ):
        chance = np.where(cause, yes, no)
        weights = weights * np.where(holds, chance, 1.0 - chance)
    return weights


def _asia_likelihood(name: str, state: str) -> Floats:
    asia, _, tub, lung, bronc = ASIA_STATES.T
    either = tub | lung
    yes = {
        "asia": asia.astype(np.float64),
        "xray": np.where(either, 0.98, 0.05),
        "dysp": np.select(
            [bronc & either, ~bronc & either, bronc & ~either], [0.9, 0.7, 0.8], default=0.1
        ),
    }[name]
    likelihood: Floats = yes if state == "yes" else 1.0 - yes
    return likelihood


@pytest.mark.parametrize(("seen", "chance", "marginals"), ASIA)
def test_asia(seen: dict[str, str], chance: str, marginals: dict[str, str]) -> None:
    """A published network of eight nodes would give other posteriors than exact fractions."""
    prior = _asia_prior()
    likelihood = np.prod(
        [_asia_likelihood(name, state) for name, state in seen.items()] or [np.ones(32)], axis=0
    )
    assert prior @ likelihood == pytest.approx(float(Fraction(chance)), rel=1e-13)
    beliefs = Beliefs(prior)
    for name, state in seen.items():
        beliefs = beliefs.given(_asia_likelihood(name, state))
    found = dict(zip(ASIA_CAUSES, beliefs.marginals(ASIA_STATES), strict=True))
    for name, value in marginals.items():
        assert found[name] == pytest.approx(float(Fraction(value)), rel=1e-12), name


@pytest.mark.parametrize(
    ("case", "either"), list(zip(ASIA, EITHER, strict=True)), ids=["0", "1", "2", "3"]
)
def test_the_judge_on_asia(case: tuple[dict[str, str], str, dict[str, str]], either: str) -> None:
    """The judge of the larger networks would itself err, by one part of a fraction."""
    seen, chance, marginals = case
    network = shipped("asia")
    assert network.chance(seen) == Fraction(chance)
    for name, value in {**marginals, "either": either}.items():
        assert network.posterior(name, seen)[0] == Fraction(value), name


ALARM_SEEN = {"HRBP": "HIGH", "CVP": "LOW", "PCWP": "LOW"}


@pytest.fixture(scope="module")
def alarm() -> Network:
    """The ALARM network of 37 nodes (Beinlich and others 1989), as a library ships it."""
    return shipped("alarm")


def test_alarm(alarm: Network) -> None:
    """Beliefs over eight joint states of causes would not come to the network's posteriors."""
    causes = ("HYPOVOLEMIA", "LVFAILURE", "KINKEDTUBE")
    before = alarm.joint(causes, {}).table.reshape(-1).astype(np.float64)
    with_it = alarm.joint(causes, ALARM_SEEN).table.reshape(-1).astype(np.float64)
    assert float(with_it.sum()) == pytest.approx(0.061915800942235, abs=5e-16)
    beliefs = Beliefs(before).given(with_it / before)
    there = np.array(list(product((True, False), repeat=3)))
    assert beliefs.marginals(there) == pytest.approx(
        [0.127409500885822, 0.541924843805271, 0.041695171292169], abs=1e-15
    )


def test_alarm_of_three_values(alarm: Network) -> None:
    """A variable of three values would be read in another order than its table."""
    output = [float(value) for value in alarm.posterior("CO", ALARM_SEEN)]
    assert output == pytest.approx(
        [0.445640535716140, 0.123459628792874, 0.430899835490986], abs=1e-15
    )
    assert alarm.chance({}) == 1


def _random_net(seed: int, causes: int, signs: int) -> NoisyOr:
    rng = np.random.default_rng(seed)
    links = rng.uniform(0.1, 0.95, (signs, causes)) * (rng.random((signs, causes)) < 0.6)
    prior, leak = rng.uniform(0.05, 0.4, causes), rng.uniform(0.01, 0.2, signs)
    return NoisyOr(prior.round(2), links.round(2), leak.round(2))


def _enumerated(net: NoisyOr, seen: Mapping[int, bool], most: int) -> Floats:
    sets = fault_sets(net.prior.size, most)
    given = sign_given(net, sets)
    beliefs = Beliefs(set_weights(net.prior, sets))
    for sign, there in seen.items():
        beliefs = beliefs.given(given[sign] if there else 1.0 - given[sign])
    return beliefs.marginals(sets)


@pytest.mark.parametrize("seed", range(3))
def test_against_two_libraries(seed: int) -> None:
    """Posteriors of a noisy OR would differ from pgmpy, from pyAgrum, or from elimination."""
    net, seen = _random_net(seed, 6, 5), {0: True, 1: True, 2: False, 4: seed > 0}
    ours = _enumerated(net, seen, 6)
    network = noisy_or_network(net.prior.tolist(), net.links.tolist(), net.leak.tolist())
    words = {f"s{sign}": "yes" if there else "no" for sign, there in seen.items()}
    judged = [network.posterior(f"c{k}", words)[1] for k in range(6)]
    assert ours == pytest.approx(judged, abs=1e-12)
    assert ours == pytest.approx(_by_pgmpy(network, words, 6), abs=1e-12)
    assert ours == pytest.approx(_by_pyagrum(net, seen), abs=1e-12)


def _by_pgmpy(network: Network, words: Mapping[str, str], causes: int) -> list[float]:
    model = DiscreteBayesianNetwork()
    model.add_nodes_from(network.states)
    for factor in network.factors:
        *parents, name = factor.names
        model.add_edges_from([(parent, name) for parent in parents])
        table = factor.table.astype(np.float64).reshape(-1, 2).T
        sizes = {"evidence": parents, "evidence_card": [2] * len(parents)} if parents else {}
        model.add_cpds(TabularCPD(name, 2, table, **sizes))
    engine = VariableElimination(model)
    evidence = {name: int(word == "yes") for name, word in words.items()}
    return [
        float(engine.query([f"c{k}"], evidence=evidence, show_progress=False).values[1])
        for k in range(causes)
    ]


def _by_pyagrum(net: NoisyOr, seen: Mapping[int, bool]) -> list[float]:
    model = pyagrum.BayesNet()
    causes = [model.add(pyagrum.LabelizedVariable(f"c{k}", "", 2)) for k in range(net.prior.size)]
    for cause, chance in zip(causes, net.prior.tolist(), strict=True):
        model.cpt(cause).fillWith([1.0 - chance, chance])
    for j, (row, leak) in enumerate(zip(net.links.tolist(), net.leak.tolist(), strict=True)):
        # addNoisyOR would take the leak as part of every link; addNoisyORNet does as we do
        sign = model.addNoisyORNet(pyagrum.LabelizedVariable(f"s{j}", "", 2), leak)
        for cause, link in zip(causes, row, strict=True):
            if link > 0.0:
                model.addWeightedArc(cause, sign, link)
    engine = pyagrum.LazyPropagation(model)
    engine.setEvidence({f"s{sign}": int(there) for sign, there in seen.items()})
    engine.makeInference()
    return [float(engine.posterior(cause)[1]) for cause in causes]


@pytest.mark.parametrize("seed", range(3))
def test_against_the_second_engine(seed: int) -> None:
    """Twelve causes, all sets, would not come to the exact fractions of inclusion and exclusion."""
    net = _random_net(seed, 12, 6)
    seen, absent = [0, 1, 2, 3], [4, 5]
    exact = _fractions(net, seen, absent)
    ours = _enumerated(net, {**dict.fromkeys(seen, True), **dict.fromkeys(absent, False)}, 12)
    assert ours == pytest.approx([float(value) for value in exact], abs=1e-12)


def _exact(values: list[float]) -> list[Fraction]:
    """Return the decimals a table was written with."""
    return [Fraction(str(value)) for value in values]


def _fractions(net: NoisyOr, seen: list[int], absent: list[int]) -> list[Fraction]:
    links = [_exact(row) for row in net.links.tolist()]
    prior, leak = _exact(net.prior.tolist()), _exact(net.leak.tolist())
    return posteriors(prior, links, leak, seen, absent)[1]


def test_the_second_engine_in_floats() -> None:
    """Inclusion and exclusion in floats, eight signs seen, would be used beyond what it bears."""
    net = _random_net(7, 8, 8)
    exact = _fractions(net, list(range(8)), [])
    prior, links, leak = net.prior.tolist(), net.links.tolist(), net.leak.tolist()
    floats = posteriors(prior, links, leak, list(range(8)), [])[1]
    assert floats == pytest.approx([float(value) for value in exact], abs=1e-6)


@pytest.mark.parametrize(("most", "error"), [(3, 0.005), (2, 0.05), (1, 0.4)])
def test_how_much_bounded_sets_err(most: int, error: float) -> None:
    """Leaving out larger sets would err more than fault_sets says, or not at all."""
    rng = np.random.default_rng(3)
    prior = 0.3 * rng.dirichlet(np.ones(12))
    links = rng.uniform(0.2, 0.85, (8, 12)) * (rng.random((8, 12)) < 0.35)
    net = NoisyOr(prior, links, np.full(8, 0.02))
    seen = dict.fromkeys(range(4), True)
    off = np.abs(_enumerated(net, seen, most) - _enumerated(net, seen, 12)).max()
    assert 0.0 < off <= error
