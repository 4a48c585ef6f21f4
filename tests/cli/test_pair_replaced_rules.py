import json
import math
from pathlib import Path

import pytest
from tests.support.command import said

from wickwright.answers import rule_book


@pytest.mark.parametrize(
    ("one", "other", "code"),
    [
        ("CH-3296", "GA-2450", 0),
        ("GA-2450", "CH-3296", 0),
        ("CH-3296", "GA-2410", 1),
        ("CH-3296", "WI-3100", 1),
        ("FO-1160", "BU-2110", 3),
    ],
)
def test_the_exit_code_of_a_pair_is_its_verdict(one: str, other: str, code: int) -> None:
    """If this failed, a script would take a misfit for a fit."""
    assert said("pair", one, other).code == code


def test_a_pair_that_fits_is_told_with_its_room_and_its_limits() -> None:
    """If this failed, 'fits' would be taken for 'is safe'."""
    out = said("pair", "CH-3296", "GA-2450").out
    assert "fits. Any two of their make have the room\nthey need." in out
    assert out.endswith(
        "'Fits' speaks of the joint alone. Whether a part stands the heat, draws where\n"
        "the lamp stands, and does not tip it depends on the whole lamp: ask 'wickwright\n"
        "fit'.\n"
    )


HOTTER = """\
  room between the two                    worst case          likely (RSS)
  cold, both at 20 °C                     0.20 mm to 1.20 mm  0.34 mm to 1.06 mm
  hot, GA-2410 at 120 °C, CH-2296 at 180  0.28 mm to 1.29 mm  0.42 mm to 1.14 mm
  °C
"""


def test_a_pair_is_judged_at_the_temperatures_given() -> None:
    """If this failed, an adviser could not say what a hotter lamp does to the joint."""
    asked = ("pair", "ch-2296", "ga-2410", "--one-at", "180C", "--other-at", "120 °C")
    assert HOTTER in said(*asked).out
    assert (
        HOTTER in said("pair", "GA-2410", "CH-2296", "--one-at", "248F", "--other-at", "180C").out
    )


def test_a_pair_for_machines_has_room_and_temperatures() -> None:
    """If this failed, a web shop would not know at what heat a pair was judged."""
    plain = json.loads(said("pair", "CH-2296", "GA-2410", "--one-at", "453.15K", "--json").out)
    assert plain["service"] == {
        "below": {"temperature_k": 383.15},
        "above": {"temperature_k": 453.15},
    }
    assert plain["room"]["cold"]["worst"]["length_m"] == pytest.approx([0.2e-3, 1.2e-3])
    hot, cold = plain["room"]["hot"], plain["room"]["cold"]
    assert hot["worst"]["length_m"][0] < hot["likely"]["length_m"][0]
    assert hot["likely"]["length_m"][0] != cold["likely"]["length_m"][0]


def test_a_joint_that_gives_is_said_not_to_be_judged_hot() -> None:
    """If this failed, a spring's seat would seem to be proved safe at any heat."""
    out = said("pair", "CH-3296", "GA-2450").out
    assert "This joint gives as the parts grow, so it is not judged hot.\n" in out
    assert (
        "Other temperatures: --one-at and --other-at.\n" in said("pair", "WI-2100", "BU-2100").out
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "110",
            "'110' is not a temperature: write a number with its unit, such as 110C, 230F or 383K",
        ),
        (
            "900F",
            (
                "900F is 482 °C; how parts grow is known from -40 °C to 300 °C: check the figure "
                "and its unit"
            ),
        ),
    ],
)
def test_what_is_no_temperature_is_refused_with_a_cure(text: str, says: str) -> None:
    """If this failed, degrees would be taken for the wrong ones."""
    found = said("pair", "CH-2296", "GA-2410", "--one-at", text)
    assert found.code == 2
    assert found.err.endswith(f"Error: Invalid value for '--one-at': {says}\n")


def test_a_lamp_is_no_part() -> None:
    """If this failed, a lamp's number would end in a riddle."""
    found = said("pair", "WH-302", "GA-2450")
    assert (found.code, found.err) == (
        2,
        "Error: 'WH-302' is a lamp: give a part; 'wickwright book show WH-302' names its parts\n",
    )


def test_a_succession_names_the_converter() -> None:
    """If this failed, a chimney would be sent that the caller's gallery does not take."""
    found = said("replaced", "CH-2296")
    assert (found.code, found.out) == (
        0,
        (
            "Chimney, quarter-turn 2, standard (CH-2296): no longer made, last in 1988.\n"
            "  - replaced by Chimney, plain foot, standard (CH-3296): made, SKD 24.00. It\n"
            "    stands by another joint. It needs Converting gallery for basket 2,\n"
            "    plain-foot seat (GA-2450): made, SKD 39.00.\n"
            "Send Chimney, plain foot, standard (CH-3296).\n"
        ),
    )


def test_a_part_gone_for_good_leaves_with_one() -> None:
    """If this failed, a script would wait for a part that never comes."""
    found = said("replaced", "FO-1160")
    assert found.code == 1
    assert "Nothing replaced it.\n" in found.out


def test_every_rule_is_told_with_its_source() -> None:
    """If this failed, a rule would stand without where it comes from."""
    out = said("rules", columns=120).out
    for rule in rule_book():
        assert f"{rule.key}: {rule.title}"[:100] in out.replace("\n", " ")
    assert out.count("  source    ") == len(rule_book())


def test_a_joint_is_found_by_its_own_name_and_shown_with_its_sketch() -> None:
    """If this failed, an adviser could not see which size is meant."""
    out = said("rules", "plain-foot").out
    assert out.startswith("joint-plain-foot: A smooth chimney foot sits between spring fingers\n")
    assert "     (  |<--- d --->|  )" in out


def test_rules_for_machines_have_every_field() -> None:
    """If this failed, a report on the rules could not be made."""
    (plain,) = json.loads(said("rules", "draft", "--json").out)
    assert list(plain) == ["rule", "title", "says", "why", "cure", "source", "breaks", "limits"]
    assert plain["limits"][-1] == {
        "says": "higher up: taller, as air pressure is below",
        "value": {"pressure_pa": 101325.0},
        "source": "usstd1976",
    }


def test_the_tip_limit_in_force_is_told_with_its_source() -> None:
    """If this failed, nobody could tell which limit a lamp was held to."""
    (plain,) = json.loads(said("rules", "tips", "--json", "--tip-limit", "en15493").out)
    assert plain["limits"][0] == {
        "says": "slope a lamp stands on (en15493)",
        "value": {"angle_rad": [pytest.approx(math.radians(10)), None]},
        "source": "en15493",
    }
    assert (
        "    slope a lamp stands on        at least 8.0°     ul153: " in said("rules", "tips").out
    )


def test_the_numbers_of_a_joint_are_told() -> None:
    """If this failed, the room a joint permits could be looked up nowhere."""
    out = said("rules", "quarter-turn").out
    assert (
        "  in force:\n"
        "    room that fits                         0.05 mm to 1.20 mm  assumption\n"
        "    room that is loose, and refused        1.20 mm to 2.00 mm  assumption\n"
        "    angles of the turn may differ by       5.0°                assumption\n"
        "    room hot, at its least                 at least 0.00 mm    assumption\n"
        "    temperature in service, carrying side  110 °C              assumption\n"
        "    temperature in service, standing side  150 °C              assumption\n"
    ) in out


def test_ranges_and_ratings_come_from_the_book(tmp_path: Path) -> None:
    """If this failed, another maker's ranges would be told as ours."""
    out = said("rules", "plain-foot").out
    assert "    printed for BU-6200, BU-7610                  53.4 mm to 54.8 mm  book\n" in out
    assert "burners give off" in said("rules", "heat").out
    (tmp_path / "lamps.csv").write_text("lamp\n", encoding="utf-8")
    found = said("rules", "plain-foot", "--book", str(tmp_path))
    assert (found.code, found.err) == (
        0,
        f"The fit book '{tmp_path}' has faults, so its own numbers are left out.\n",
    )
    assert "printed for" not in found.out


def test_an_unknown_rule_is_answered_with_the_nearest() -> None:
    """If this failed, a slip would be answered with a bare refusal."""
    found = said("rules", "drafft")
    assert (found.code, found.err) == (
        2,
        (
            "Error: there is no rule 'drafft': did you mean 'draft'? "
            "'wickwright rules --short' lists them all\n"
        ),
    )
