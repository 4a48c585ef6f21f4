from __future__ import annotations

import string
from dataclasses import replace

import pytest
from tests.support.flames import demo_book, put_together

from wickwright.burn.checks import air_at
from wickwright.burn.glass_stress import seat_of
from wickwright.burn.judging import brighter, findings
from wickwright.burn.lamp import burning_parts
from wickwright.burn.predicting import predict, predict_lamp
from wickwright.burn.rules import RULES
from wickwright.terms.finding import Finding, Severity
from wickwright.terms.source import SOURCES
from wickwright.terms.units import Units, say

BY_KEY = {rule.key: rule for rule in RULES}


def _found(
    lamp: str, elevation: float = 0.0, setting: str | float = "fullest", **changed: str
) -> dict[str, Finding]:
    """Return the findings of a lamp by rule; of a rule that speaks twice the first."""
    assembly = put_together(lamp, **changed)
    found = findings(predict(assembly, air_at(elevation), setting=setting), seat_of(assembly))
    return {one.rule: one for one in reversed(found)}


def _words(finding: Finding) -> str:
    facts = {name: say(fact, Units()) for name, fact in finding.facts.items()}
    for name, fact in (("measured", finding.measured), ("permitted", finding.permitted)):
        if fact is not None:
            facts.setdefault(name, say(fact, Units()))
    return BY_KEY[finding.rule].says.format_map(facts)


def test_a_lamp_at_home_has_little_to_answer_for() -> None:
    """Every lamp would come with faults nobody can mend."""
    found = _found("DU-401")
    assert sorted(found) == ["burn-care", "burn-glass-stress", "burn-run-time"]
    assert found["burn-glass-stress"].severity is Severity.NOTE
    assert found["burn-glass-stress"].facts["case"] == "Under a splash of water"


def test_a_standard_chimney_in_the_mountains_starves_its_burner() -> None:
    """A caller at 1,600 m would be sold the chimney of the coast."""
    finding = _found("DU-401", 1600.0)["burn-starved"]
    assert finding.severity is Severity.CAUTION
    assert _words(finding) == (
        "Chimney, plain foot, standard (CH-3296) starves Kame burner (BU-3200) here: its fullest "
        "clean flame gives 72 % of the 317 lm it gives at sea level under the least chimney its "
        "maker states; permitted: at least 85 %."
    )
    assert "burn-starved" not in _found("DU-401", 900.0)


def test_a_burner_whose_maker_states_no_chimney_is_held_to_its_own() -> None:
    """A lamp without a stated least chimney would never be called starved."""
    burner, chimney, web = (demo_book().parts[one] for one in ("BU-3200", "CH-3296", "MA-3300"))
    lamp = burning_parts(replace(burner, least_chimney=None), chimney, web, air_at(1600.0))
    (finding,) = [one for one in findings(predict_lamp(lamp)) if one.rule == "burn-starved"]
    assert _words(finding) == (
        "Chimney, plain foot, standard (CH-3296) starves Kame burner (BU-3200) here: its fullest "
        "clean flame gives 64 % of the 356 lm it gives at sea level under the same chimney; "
        "permitted: at least 85 %."
    )


def test_the_flame_starves_where_the_rule_of_thumb_sends_a_taller_chimney() -> None:
    """The desk would send tall chimneys to the coast, or none to the hills.

    About 3,000 ft (914 m): common practice, no published source.
    """
    burner, chimney, web = (demo_book().parts[one] for one in ("BU-3200", "CH-3296", "MA-3300"))
    starved = [
        elevation
        for elevation in range(600, 1500, 50)
        if any(
            one.rule == "burn-starved"
            for one in findings(
                predict_lamp(burning_parts(burner, chimney, web, air_at(float(elevation))))
            )
        )
    ]
    assert 914 - 250 < starved[0] < 914 + 250
    assert starved == list(range(starved[0], 1500, 50))


def test_a_wick_left_at_its_mark_up_there_lays_carbon() -> None:
    """An owner would not be told to turn the wick down."""
    finding = _found("DU-401", 1600.0, "mark")["burn-carbon"]
    assert finding.severity is Severity.FAULT
    assert _words(finding) == (
        "At this setting (62.0 g/h) Kame burner (BU-3200) has 105 % of the air it needs; carbon "
        "begins below at least 130 %. The light given is that of the first minutes, before it "
        "does."
    )
    assert "burn-carbon" not in _found("DU-401", 0.0, "mark")


def test_a_small_reserve_of_air_is_told() -> None:
    """A setting near the limit would pass for a safe one."""
    finding = _found("DU-401", 0.0, "mark")["burn-carbon-near"]
    assert finding.severity is Severity.NOTE
    assert finding.measured is not None


def test_a_wick_that_gives_out_first_makes_a_taller_glass_useless() -> None:
    """A caller would pay for a tall chimney that adds nothing."""
    assert "burn-taller-unneeded" in _found("DU-408")
    assert "burn-taller-unneeded" not in _found("DU-401")


def test_soda_glass_over_a_mantle_flame_is_told_three_ways() -> None:
    """The look-alike that cracks would pass."""
    found = _found("DU-401", chimney="CH-6296")
    assert found["burn-glass-heat"].severity is Severity.FAULT
    assert found["burn-glass-hot"].severity is Severity.FAULT
    assert found["burn-glass-stress"].facts["material"] == "soda-lime glass"


def test_the_quarter_turn_seat_is_a_caution() -> None:
    """The reason why an old seat breaks glass would not be told."""
    assembly = put_together("SA-207")
    found = findings(predict(assembly, air_at(0.0)), seat_of(assembly))
    cases = {one.facts["case"]: one for one in found if one.rule == "burn-glass-stress"}
    assert cases["In its seat"].severity is Severity.CAUTION


def test_assumed_figures_are_named_part_by_part() -> None:
    """A guess would be passed off as the maker's figure."""
    finding = _found("DU-401", chimney="CH-3301")["burn-assumed"]
    assert _words(finding) == (
        "Chimney, amber, from outside works (CH-3301): the book has no figure for bore of the "
        "chimney's foot, length of the chimney's foot, bore of the chimney, thickness of the "
        "glass. General figures with wide bands were taken."
    )


def test_a_formula_beyond_its_range_is_told() -> None:
    """A figure from a formula nobody tried there would be printed without a word."""
    finding = _found("DU-401", setting=0.2)["burn-range"]
    assert _words(finding) == (
        "flame_temperature was tried for air_ratio from 0.7 to 2.5; here it is 3.399."
    )


def test_a_mantle_burner_without_a_mantle_is_told() -> None:
    """A lamp without a mantle would be dim for no reason given."""
    assert _found("DU-401", mantle="")["burn-no-mantle"].severity is Severity.FAULT
    assert "burn-no-mantle" not in _found("TU-601")


def test_a_flame_that_finds_no_balance_is_told_and_nothing_else() -> None:
    """Figures of a flame that cannot burn would be printed."""
    prediction = predict(put_together("DU-401"), air_at(0.0))
    wild = replace(prediction, flames=replace(prediction.flames, settled=0.2))
    assert [one.rule for one in findings(wild)] == ["burn-unsettled"]


def test_a_taller_chimney_is_priced_in_fuel() -> None:
    """A caller could not weigh light against fuel."""
    here = predict(put_together("DU-401"), air_at(1600.0))
    other = predict(put_together("DU-401", chimney="CH-3371"), air_at(1600.0))
    finding = brighter(here, other)
    assert finding is not None
    assert _words(finding) == (
        "Chimney, plain foot, tall (CH-3371) gives 28 % more light than Chimney, plain foot, "
        "standard (CH-3296) for 15 % more fuel."
    )
    assert brighter(other, here) is None


def test_findings_come_gravest_first() -> None:
    """What is dangerous would stand below what is merely good to know."""
    assembly = put_together("DU-401", chimney="CH-6296")
    found = findings(predict(assembly, air_at(2500.0), setting="mark"), seat_of(assembly))
    assert [one.severity for one in found] == sorted((one.severity for one in found), reverse=True)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.key)
def test_every_rule_has_a_source_and_words(rule: object) -> None:
    """A rule would have no source, or half a sentence."""
    spoken = BY_KEY[str(getattr(rule, "key", ""))]
    assert spoken.source in SOURCES
    for text in (spoken.title, spoken.says, spoken.why, spoken.cure, spoken.breaks):
        assert text
        assert all(
            name is None or name.isidentifier() for _, name, _, _ in string.Formatter().parse(text)
        )


def test_every_rule_speaks_somewhere_and_its_words_are_whole() -> None:
    """A sentence would have a gap in it, or a rule would never be heard."""
    some = [
        _found("DU-401", 1600.0, "mark"),
        _found("DU-401", 0.0, "mark"),
        _found("DU-408"),
        _found("DU-401", chimney="CH-6296"),
        _found("DU-401", chimney="CH-3301"),
        _found("DU-401", setting=0.2),
        _found("DU-401", mantle=""),
    ]
    spoken = {key: finding for found in some for key, finding in found.items()}
    assert set(BY_KEY) - set(spoken) == {"burn-unsettled", "burn-brighter"}
    for finding in spoken.values():
        assert "{" not in _words(finding)
        facts = {**finding.facts, "measured": "x", "permitted": "x"}
        assert BY_KEY[finding.rule].cure.format_map(dict.fromkeys(facts, "x"))
