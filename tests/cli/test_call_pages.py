import json

import pytest
from tests.support.command import said

CAUSE = """\
cause winder-broken: the winder is broken
  why     its teeth no longer grip the wick
  weight  3 of a hundred lamps that callers complain of
  lamps   with a wick
  source  Common practice of the trade [practice]: common practice, no published source

Shows itself, of 100 lamps with this cause alone
  85  knob-free  the knob turns and the wick does not follow           practice
  85  stuck-low  the flame stays small however far the knob is turned  practice
  40  no-answer  the flame does not answer the knob                    practice
  20  goes-out   it goes out by itself                                 practice
  20  grows      the flame grows by itself after lighting              practice
  20  dim        it gives less light than it did                       practice

Cured by, of 100 tries
  97  new-burner  Put on a new burner
  97  bench       Send it to our bench, empty, dry and packed without its glass
"""


def test_a_cause_is_shown_with_what_shows_and_what_cures_it() -> None:
    """If this failed, a support lead could not see why the desk blames a cause."""
    out = said("book", "show", "Winder-broken", columns=90).out
    assert out == CAUSE


def test_a_sign_of_danger_says_that_it_stops_the_call() -> None:
    """If this failed, a lead could take a question that guards the caller for any other."""
    out = said("book", "show", "no-answer", columns=100).out
    assert (
        "  DANGER   the flame does not answer the knob: a yes stops the call\n"
        "  how      ask, 0.5 min, lamp lit or out\n"
    ) in out
    assert "  anyway   0.3 of a hundred lamps without any of its causes\n" in out


def test_a_complaint_and_the_sign_of_its_name_are_shown_together() -> None:
    """If this failed, one of two things of one name could never be looked at."""
    out = said("book", "show", "flickers", columns=100).out
    complaint, sign = out.split("\n\n", 1)
    assert complaint.startswith(
        "complaint flickers: it flickers\n  sign       flickers: the flame "
    )
    assert sign.startswith("sign flickers: the flame flickers\n  ask      Does the flame flicker ")
    assert sign.count("Shown by, of 100 lamps") == 1


def test_a_complaint_of_another_name_lists_its_causes() -> None:
    """If this failed, a lead would have to look the sign up as well."""
    out = said("book", "show", "leaks", columns=100).out
    assert "  85  font-leaks      the font leaks " in out


def test_a_remedy_is_shown_with_its_caution_and_its_parts() -> None:
    """If this failed, a remedy could be told without what makes it safe."""
    out = said("book", "show", "new-font", columns=100).out
    assert out == (
        "remedy new-font: Stop using it, empty it outdoors, and put the lamp on a new font\n"
        "  mind    a leaking font is never lit again, and never soldered by the owner\n"
        "  takes   15 min, lamp out and cold, and 15 min for its risk\n"
        "  parts   by the wish renew-font: A new one for the font\n"
        "  source  Common practice of the trade [practice]: common practice, no published source\n"
        "\n"
        "Cures, of 100 tries\n"
        "  97  font-leaks  the font leaks\n"
    )


def test_a_look_is_shown_with_its_values_and_the_parts_that_have_them() -> None:
    """If this failed, a lead could not see which parts a look tells apart."""
    out = said("book", "show", "bell-edge", columns=100).out
    assert "  how      look, 0.3 min, lamp out and cold\n" in out
    assert out.endswith(
        "Shows, on so many parts\n"
        "  5  plain   BE-2100 BE-2110 BE-2120 BE-2130 BE-6100\n"
        "  1  fluted  BE-1100\n"
    )


def test_a_measured_look_says_how_far_callers_are_off() -> None:
    """If this failed, a length would be trusted to the tenth of a millimetre."""
    out = said("book", "show", "collar-across", columns=100).out
    assert "  callers  standard error 1 mm; 10 of a hundred do not know\n" in out


def test_a_lamp_is_known_first_by_what_the_fewest_others_show() -> None:
    """If this failed, an adviser would ask first for what every lamp shows."""
    out = said("book", "show", "WH-302", columns=100).out
    told = out.split("how many other lamps look the same\n")[1].splitlines()
    assert told[0].endswith("no others")
    assert "looks more: see its parts" in out


def test_a_part_is_shown_with_its_marks_and_what_they_are_taken_for() -> None:
    """If this failed, an adviser could not check over the telephone which part it is."""
    out = " ".join(said("book", "show", "GA-2420", columns=100).out.split())
    assert "What is stamped on the skirt of the gallery? an H and 72 (taken for: an H)" in out


@pytest.mark.parametrize(
    ("what", "head", "row"),
    [
        ("looks", "look", "  feel "),
        ("signs", "sign", "  outside-glass  "),
        ("complaints", "complaint", "spits          it spits and crackles  "),
        ("causes", "cause", "winder-broken           3  the winder is broken "),
        ("remedies", "remedy", "form-prongs           3  cold   Bend the prongs "),
    ],
)
def test_what_a_call_is_taken_with_is_listed(what: str, head: str, row: str) -> None:
    """If this failed, nobody would find the name of a cause or a question."""
    out = said("book", "list", what, columns=100).out
    assert out.startswith(head)
    assert row in out


def test_looks_are_listed_by_kind_of_part() -> None:
    """If this failed, a lead would search 50 looks for the few at a bell."""
    rows = json.loads(said("book", "list", "looks", "--kind", "bell", "--json").out)
    assert [row["look"] for row in rows] == ["bell-made-of", "bell-edge"]


def test_a_cause_is_told_to_machines_in_shares() -> None:
    """If this failed, a machine would take 3 of a hundred for 3."""
    found = json.loads(said("book", "show", "winder-broken", "--json").out)
    assert list(found) == ["cause"]
    assert found["cause"]["weight"] == pytest.approx(0.03)
    assert found["cause"]["needs"] == ["wick"]
    assert {"sign": "no-answer", "strength": pytest.approx(0.4)} in found["cause"]["shows"]
    assert found["cause"]["cures"][0] == {"remedy": "new-burner", "sure": pytest.approx(0.97)}


@pytest.mark.parametrize(
    ("name", "what", "linked"),
    [
        ("bell-edge", "look", {"part": "BE-1100", "value": "fluted"}),
        ("no-answer", "sign", {"cause": "wick-jammed", "strength": 0.15}),
        ("leaks", "complaint", {"cause": "font-leaks", "strength": 0.85}),
        ("new-font", "remedy", {"cause": "font-leaks", "sure": 0.97}),
    ],
)
def test_the_rest_is_told_to_machines_with_the_rows_that_name_it(
    name: str, what: str, linked: dict[str, object]
) -> None:
    """If this failed, a machine would have to read the tables itself."""
    found = json.loads(said("book", "show", name, "--json").out)[what]
    key = {"look": "marks", "remedy": "cures"}.get(what, "causes")
    assert linked in found[key]


def test_a_slip_in_the_name_of_a_cause_is_answered_with_the_nearest() -> None:
    """If this failed, a slip would be answered with a bare refusal."""
    found = said("book", "show", "wick-crustd")
    assert (found.code, found.err) == (
        2,
        (
            "Error: there is no lamp or part, and no cause or sign, 'wick-crustd' in the fit book: "
            "did you mean 'wick-crusted'? 'wickwright book list lamps' and 'wickwright book list "
            "parts' list them all\n"
        ),
    )
