"""Laws every joint rule keeps, whatever the sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st

from wickwright.catalogue.lists import MATERIALS
from wickwright.catalogue.records import Part, Port, Side
from wickwright.fit.clearance import Gap
from wickwright.fit.joints import JOINTS, fitter, judge, mantle_seat, quarter_turn, rest, thread
from wickwright.fit.joints.grade import cold_verdict
from wickwright.fit.joints.verdict import COLD, Fit, Half, Joined, Warmth
from wickwright.fit.joints.wick_tube import FLAT_CLEARANCE, ROUND_CLEARANCE
from wickwright.fit.rules import RULES, joint_finding
from wickwright.terms.dimension import Dimension
from wickwright.terms.units import Units, say

if TYPE_CHECKING:
    from wickwright.fit.joints.grade import Play

laws = settings(deadline=None, max_examples=60)

MICRON = 1e-6
SEAT = 60_000
"""The hole of most pairs here, in micrometres."""

HARD: dict[str, Play] = {
    "thread": thread.CLEARANCE,
    "quarter-turn": quarter_turn.CLEARANCE,
    "mantle": mantle_seat.CLEARANCE,
    "fitter": fitter.CLEARANCE,
    "rest": rest.CLEARANCE,
}
EVERY = {**HARD, "round wick": ROUND_CLEARANCE, "flat wick": FLAT_CLEARANCE}
NUMBERS = {"lugs": 3.0, "angle": 0.7}


def size(microns: int, half: int) -> Dimension:
    """Make a size in micrometres."""
    at, tolerance = microns * MICRON, half * MICRON
    return Dimension(at, at - tolerance, at + tolerance, f"{microns} um")


def seated(
    joint: str,
    hole: Dimension,
    shaft: Dimension,
    warmth: Warmth = COLD,
    materials: tuple[str, str] = ("brass", "brass"),
) -> Joined:
    """Judge a pair of which the carrying side is the hole."""
    outer, inner = ({"diameter": diameter, "pitch": size(1814, 0)} for diameter in (hole, shaft))
    return judge(
        Half(Port("a", Side.CARRIES, joint, sizes=outer, numbers=NUMBERS), materials[0]),
        Half(Port("b", Side.STANDS, joint, sizes=inner, numbers=NUMBERS), materials[1]),
        warmth,
    )


def rank(joined: Joined, borders: Play) -> float:
    """Place a verdict on the line from tight (low) to wide (high)."""
    assert joined.likely is not None
    tight = joined.likely.low + joined.likely.high < borders.floor + borders.ceiling
    ends = {Fit.NOT: 4.0, Fit.UNKNOWN: 3.0}
    if joined.fit in ends:
        return -ends[joined.fit] if tight else ends[joined.fit]
    inner = {Fit.BINDS_HOT: -2.0, Fit.EFFORT: -1.0, Fit.FITS: 0.0, Fit.LOOSE: 1.0}
    return inner[joined.fit]


gaps = st.integers(-2500, 6000)
halves = st.integers(0, 1500)
growths = st.integers(1, 2000)
hard = st.sampled_from(sorted(HARD))
kelvins = st.floats(243.15, 573.15)
warmths = st.builds(Warmth, kelvins, kelvins)
materials = st.sampled_from([*MATERIALS, "", "unobtanium"])


@laws
@given(gaps, halves, growths, st.sampled_from(sorted(EVERY)))
def test_a_gap_that_grows_never_gets_tighter(low: int, half: int, shift: int, name: str) -> None:
    """An interval would get no verdict, or one that leaps back as the gap grows."""
    borders, ranks = EVERY[name], []
    for at in (low, low + shift):
        gap = Gap(at * MICRON, (at + 2 * half) * MICRON)
        fit, why = cold_verdict(gap.low, gap.high, borders)
        ranks.append(rank(Joined(fit, why, likely=gap), borders))
    assert ranks[0] <= ranks[1]


@laws
@given(gaps, st.tuples(halves, halves), growths, hard, warmths)
def test_growing_the_shaft_only_tightens(
    gap: int, tolerances: tuple[int, int], growth: int, joint: str, warmth: Warmth
) -> None:
    """A thicker foot would fit, cold or hot, where a thinner one is already too thick."""
    hole, borders = size(SEAT, tolerances[0]), HARD[joint]
    thin, thick = (size(SEAT - gap + more, tolerances[1]) for more in (0, growth))
    for there in (COLD, warmth):
        ranks = [
            rank(seated(joint, hole, shaft, there, ("brass", "glass")), borders)
            for shaft in (thick, thin)
        ]
        assert ranks[0] <= ranks[1]


@laws
@given(gaps, halves, halves, halves, hard)
def test_a_wider_tolerance_settles_nothing(
    gap: int, half: int, other: int, wider: int, joint: str
) -> None:
    """A pair would come to fit, in the worst case or likely, by being known less closely."""
    hole = size(SEAT, other)
    close = seated(joint, hole, size(SEAT - gap, half))
    vague = seated(joint, hole, size(SEAT - gap, half + wider))
    assert vague.fit is not Fit.FITS or close.fit is Fit.FITS
    assert vague.why != "clearance" or close.why == "clearance"
    assert close.fit is not Fit.NOT or vague.fit in {Fit.NOT, Fit.UNKNOWN}


@laws
@given(gaps, halves, halves, hard)
def test_certain_means_every_pair(gap: int, one: int, other: int, joint: str) -> None:
    """'Every pair has the room it needs' would be said where the worst pair has not."""
    joined = seated(joint, size(SEAT, one), size(SEAT - gap, other))
    assert joined.worst is not None
    assert joined.likely is not None
    assert joined.worst.low - MICRON / 1e3 <= joined.likely.low
    assert joined.likely.high <= joined.worst.high + MICRON / 1e3
    inside = HARD[joint].permitted
    certain = joined.worst.low > inside.low and joined.worst.high < inside.high
    assert not certain or (joined.fit, joined.why) == (Fit.FITS, "clearance")


@laws
@given(st.integers(0, 500), halves, halves, hard, st.floats(294.0, 573.15))
def test_metal_around_glass_opens_and_glass_around_metal_closes(
    gap: int, one: int, other: int, joint: str, hot: float
) -> None:
    """Heat would work the wrong way round."""
    hole, shaft, warmth = size(SEAT, one), size(SEAT - gap, other), Warmth(hot, hot)
    opens = seated(joint, hole, shaft, warmth, ("brass", "glass"))
    closes = seated(joint, hole, shaft, warmth, ("glass", "brass"))
    assert opens.worst is not None
    assert opens.hot is not None
    assert closes.hot is not None
    assert closes.hot.low < opens.worst.low < opens.hot.low
    assert opens.fit is not Fit.BINDS_HOT


@laws
@given(gaps, halves, hard, st.floats(293.15, 573.15), st.floats(0.0, 200.0))
def test_more_heat_in_the_inner_part_only_tightens(
    gap: int, half: int, joint: str, temperature: float, more: float
) -> None:
    """A hotter foot would stop binding."""
    hole, shaft = size(SEAT, half), size(SEAT - gap, half)
    warm = seated(joint, hole, shaft, Warmth(293.15, temperature))
    hotter = seated(joint, hole, shaft, Warmth(293.15, temperature + more))
    assert rank(hotter, HARD[joint]) <= rank(warm, HARD[joint])


words = st.dictionaries(
    st.sampled_from(["form", "hand", "cap"]),
    st.sampled_from(["", " ", "un", "UN ", "round", "flat", "post", "3", "right", "E26"]),
)
numbers = st.dictionaries(
    st.sampled_from(["lugs", "angle", "limit"]), st.sampled_from([0.0, 3.0, 4.0, 60.0])
)
sizes = st.dictionaries(
    st.sampled_from(["diameter", "capture", "pitch"]),
    st.builds(size, st.integers(3000, 9000), st.integers(0, 2500)),
)
labels = st.sampled_from(["", " ", "A", "a", "B "])


@st.composite
def half_of(draw: st.DrawFn, side: Side, joints: st.SearchStrategy[str]) -> Half:
    """Draw a port with some of its cells blank."""
    port = Port(
        "p",
        side,
        draw(joints),
        label=draw(labels),
        sizes=draw(sizes),
        words=draw(words),
        numbers=draw(numbers),
    )
    return Half(port, draw(materials))


any_joint = st.sampled_from(sorted(JOINTS))
carriers = half_of(Side.CARRIES, any_joint)


@settings(deadline=None, max_examples=300)
@given(carriers, st.data(), warmths)
def test_any_two_ports_get_a_verdict_that_can_be_said(
    carrier: Half, data: st.DataObject, warmth: Warmth
) -> None:
    """Some blank or odd word in a book would raise, or give a verdict without words."""
    same = st.just(carrier.port.joint)
    stander = data.draw(half_of(Side.STANDS, same | any_joint))
    joined = judge(carrier, stander, warmth)
    part = Part("X1", "part", "tool", material=carrier.material)
    finding = joint_finding(joined, carrier.port.joint, part, part)
    rule = next(rule for rule in RULES if rule.key == finding.rule)
    told = rule.says.format_map({key: say(fact, Units()) for key, fact in finding.facts.items()})
    assert str(joined.fit) in told
    assert (joined.fit is Fit.UNKNOWN) <= bool(joined.missing)


@laws
@given(carriers, st.data())
def test_hot_at_twenty_degrees_is_cold(carrier: Half, data: st.DataObject) -> None:
    """Judging warm at the temperature of the drawing would differ from judging cold."""
    stander = data.draw(half_of(Side.STANDS, st.just(carrier.port.joint)))
    assert judge(carrier, stander, Warmth(293.15, 293.15)) == judge(carrier, stander)


@laws
@given(st.sampled_from(sorted(set(JOINTS) - {"lampholder"})), labels, labels)
def test_labels_alone(joint: str, one: str, other: str) -> None:
    """Bare labels would be compared by their capitals, or a blank would count as a label."""
    joined = judge(
        Half(Port("a", Side.CARRIES, joint, label=one), "brass"),
        Half(Port("b", Side.STANDS, joint, label=other), "brass"),
    )
    bare = {one.strip().upper(), other.strip().upper()}
    expected = Fit.UNKNOWN if "" in bare else Fit.FITS if len(bare) == 1 else Fit.NOT
    assert (joined.fit, joined.by_label) == (expected, "" not in bare)


@laws
@given(gaps, st.integers(0, 2000), st.integers(0, 800), growths)
def test_growing_a_plain_foot_only_tightens(over: int, width: int, half: int, growth: int) -> None:
    """A thicker glass would go between the fingers where a thinner one does not."""
    capture = Dimension(0.06, SEAT * MICRON, (SEAT + width) * MICRON, "capture")
    carrier = Half(Port("a", Side.CARRIES, "plain-foot", sizes={"capture": capture}), "brass")
    order = [Fit.NOT, Fit.UNKNOWN, Fit.EFFORT, Fit.FITS, Fit.LOOSE, Fit.UNKNOWN, Fit.NOT]
    places = []
    for at in (SEAT + over + growth, SEAT + over):
        sizes = {"diameter": size(at, half)}
        fit = judge(carrier, Half(Port("b", Side.STANDS, "plain-foot", sizes=sizes), "glass")).fit
        found = [place for place, known in enumerate(order) if known is fit]
        places.append(found[0] if 2 * at > 2 * SEAT + width else found[-1])
    assert places[0] <= places[1]
