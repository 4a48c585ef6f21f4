import json

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
    assert "fits. Every pair the tolerances allow has\nthe room it needs." in out
    assert out.endswith(
        "'Fits' speaks of the joint alone. Whether a part stands the heat, draws where\n"
        "the lamp stands, and does not tip it depends on the whole lamp: ask 'wickwright\n"
        "fit'.\n"
    )


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
    assert list(plain) == ["rule", "title", "says", "why", "cure", "source", "breaks"]


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
