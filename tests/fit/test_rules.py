from __future__ import annotations

from string import Formatter

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.catalogue.records import Part
from wickwright.fit.clearance import Gap
from wickwright.fit.joints import JOINTS, judge
from wickwright.fit.joints.verdict import Fit, Joined, Warmth
from wickwright.fit.rules import DETAILS, RULES, joint_finding
from wickwright.terms.finding import Finding, Kind, Range, Severity
from wickwright.terms.source import SOURCES
from wickwright.terms.units import Units, say

BRASS = Part("G1", "gallery", "gallery", material="brass")
GLASS = Part("C1", "chimney", "chimney", material="glass")
MILLIMETRE = Gap(0.0, 1e-3)


def told(finding: Finding) -> str:
    """Put a finding into words in millimetres."""
    rule = next(rule for rule in RULES if rule.key == finding.rule)
    metric = Units()
    return rule.says.format_map({key: say(fact, metric) for key, fact in finding.facts.items()})


def test_one_rule_for_each_joint() -> None:
    """A verdict could not be put into words."""
    assert [rule.key for rule in RULES] == [f"joint-{key}" for key in JOINTS]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.key)
def test_rules_are_filled_and_sourced(rule: object) -> None:
    """A rule would have no reason, cure, source or test that could break it."""
    found = next(known for known in RULES if known is rule)
    assert all((found.title, found.says, found.why, found.cure, found.breaks))
    assert found.source in SOURCES


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.key)
def test_rules_use_only_facts_that_are_always_there(rule: object) -> None:
    """Printing a finding would fail for want of a fact."""
    found = next(known for known in RULES if known is rule)
    used = {name for _, name, _, _ in Formatter().parse(found.says + found.cure) if name}
    facts = joint_finding(Joined(Fit.FITS, "clearance"), "thread", BRASS, GLASS).facts
    assert used <= set(facts)


@pytest.mark.parametrize(
    ("fit", "severity"),
    [
        (Fit.FITS, Severity.GOOD),
        (Fit.EFFORT, Severity.NOTE),
        (Fit.LOOSE, Severity.FAULT),
        (Fit.BINDS_HOT, Severity.FAULT),
        (Fit.NOT, Severity.FAULT),
        (Fit.UNKNOWN, Severity.UNKNOWN),
    ],
)
def test_severity_of_each_verdict(fit: Fit, severity: Severity) -> None:
    """A verdict would weigh more or less than it should."""
    assert joint_finding(Joined(fit, "tight"), "rest", BRASS, BRASS).severity is severity


@pytest.mark.parametrize("material", ["glass", "soda-glass", "porcelain"])
def test_binding_hot_on_something_brittle_is_a_danger(material: str) -> None:
    """Glass that will break over a flame would be a fault like any other."""
    part = Part("C2", "chimney", "chimney", material=material)
    joined = Joined(Fit.BINDS_HOT, "hot", MILLIMETRE, MILLIMETRE, Gap(-1e-3, 0.0), MILLIMETRE)
    for one, other in ((part, BRASS), (BRASS, part)):
        finding = joint_finding(joined, "quarter-turn", one, other)
        assert finding.severity is Severity.DANGER
        assert finding.measured == Range(-1e-3, 0.0, Kind.LENGTH)
        assert finding.permitted == Range(0.0, None, Kind.LENGTH)


def test_by_label_is_noted() -> None:
    """The adviser would not know that nothing was measured."""
    joined = judge(carrier("rest", label="A"), stander("rest", label="a"))
    finding = joint_finding(joined, "rest", BRASS, GLASS)
    assert finding.severity is Severity.NOTE
    assert finding.facts["by_label"] == "by label only"
    assert told(finding) == (
        "chimney (C1) in the rest of gallery (G1): fits, by label only. A measurement is not "
        "known, but both are marked 'A'. Room between the two: not measured; "
        "permitted: not stated."
    )


def test_a_tight_foot_is_told_with_its_sizes() -> None:
    """The measured value would not stand beside the permitted one."""
    fingers = carrier("plain-foot", {"capture": "65.5..67.5 mm"})
    foot = stander("plain-foot", {"diameter": exact(67.8)}, material="glass")
    finding = joint_finding(judge(fingers, foot), "plain-foot", BRASS, GLASS)
    assert finding.parts == ("G1", "C1")
    assert told(finding) == (
        "chimney (C1) in the fingers of gallery (G1): fits with effort. It is on the tight side. "
        "Room between the two: -0.30 mm to -0.30 mm; permitted: 0.00 mm to 2.00 mm."
    )


def test_watts_are_told_without_sizes() -> None:
    """A bulb's finding would speak of room that nobody measures."""
    joined = judge(
        carrier("lampholder", words={"cap": "E26"}, numbers={"limit": 60}),
        stander("lampholder", words={"cap": "E26"}, numbers={"limit": 100}),
    )
    assert told(joint_finding(joined, "lampholder", BRASS, GLASS)) == (
        "chimney (C1) in the lampholder of gallery (G1): does not fit. The bulb takes 100 W; the "
        "holder is made for 60 W at most."
    )


def test_missing_and_hot_are_facts() -> None:
    """What to measure, or the hot gap, would not reach the edge."""
    one = carrier("rest", {"diameter": exact(66.05)}, material="")
    other = stander("rest", {"diameter": exact(66)}, material="")
    joined = judge(one, other, Warmth(393.15, 393.15))
    facts = joint_finding(joined, "rest", BRASS, BRASS).facts
    assert facts["missing"] == ("carrier material", "stander material")
    assert isinstance(facts["hot"], Range)


def test_details_name_no_word_that_is_never_given() -> None:
    """A detail would ask for a word that its verdict does not carry."""
    words = dict.fromkeys(("carrier", "stander", "below", "above"), "a")
    assert all("{" not in text.format_map(words) for text in DETAILS.values())
