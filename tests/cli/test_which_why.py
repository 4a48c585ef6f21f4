"""Whole conversations at the terminal, typed line by line."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest
from tests.support.command import said
from tests.support.conversation import typed
from tests.support.demo import demo

from wickwright.catalogue.call_records import DANGERS
from wickwright.cause.dangers import GUARDS

if TYPE_CHECKING:
    from pathlib import Path

ASKED = [key for key, guard in GUARDS.items() if guard.flame]
NONE_OF_THESE = str(len(ASKED) + 1)
SIGNS = {sign.question: sign for sign in demo().book.calls.signs.values()}


def as_json(*arguments: str) -> dict[str, object]:
    found = said(*arguments, "--json")
    assert found.err == ""
    read: dict[str, object] = json.loads(found.out)
    return read


# -- why -----------------------------------------------------------------------------------------


def test_a_dim_lamp_at_1900_m_is_taken_to_the_parts_in_the_box() -> None:
    """The complaint would not lead from the caller's words to what is sent."""
    words = "it is not bright any more"
    lines = ("1", NONE_OF_THESE, "n", "n", "1")
    found = typed("why", "WH-302", words, "--at", "1900m", lines=lines)
    assert (found.code, found.err) == (0, "")
    nearest = "'it is not bright any more' is nearest to the first of what stands here. Which"
    assert found.out.startswith(f"{nearest}\nis meant?\n  1  it is not bright\n  2  ")
    assert "your glass is 37.1 mm short for 1,900 m: this\n    burner needs 332.3 mm there" in (
        found.out
    )
    assert "almost certainly: the air is too thin here for this glass" in found.out
    assert "What goes in the box:" in found.out
    assert "GA-2450  Converting gallery for basket 2, plain-foot seat" in found.out
    assert found.out.endswith(
        "It burns well. Never leave it alone while it burns; local codes come first.\n"
    )


def test_every_danger_is_asked_about_before_anything_else() -> None:
    """A caller with a leaking lamp would be asked about soot first."""
    found = typed("why", "WH-302", "dim")
    asked = found.out.index("First, before anything else. Is any of these so?")
    assert found.out.index("it is not bright") < asked
    assert all(
        guard.asks.split("?")[0].split(",")[0] in found.out
        for guard in GUARDS.values()
        if guard.flame
    )
    assert "To do:" not in found.out


def test_a_wet_font_stops_the_call_until_it_is_cleared() -> None:
    """A lamp that leaks would be lit to see whether it burns well."""
    place = str(ASKED.index("wet-font") + 1)
    stopped = typed("why", "WH-302", "dim", lines=(place, "n"))
    assert stopped.code == 1
    assert f"STOP: {DANGERS['wet-font']}." in stopped.out
    assert "never water on oil" in " ".join(stopped.out.split())
    assert "To do:" not in stopped.out
    cleared = typed("why", "WH-302", "dim", lines=(place, "y", str(len(ASKED))))
    assert "It looks like:" in cleared.out


def test_a_complaint_that_is_a_danger_is_met_before_any_question() -> None:
    """A caller whose lamp leaks would be asked eight questions before hearing to put it out."""
    found = typed("why", "WH-302", "leaks", lines=(str(len(ASKED)), "n"))
    assert found.code == 1
    stop, asked = f"STOP: {DANGERS['wet-font']}.", "is any of these so as well?"
    assert 0 < found.out.index(stop) < found.out.index(asked)
    assert GUARDS["wet-font"].asks not in found.out
    assert "The call ends here with this left:" in found.out


def test_an_answer_given_anew_takes_the_place_of_the_one_kept(tmp_path: Path) -> None:
    """A call kept in a file would clash for ever once the caller had a second look."""
    case, answers = tmp_path / "call.json", tmp_path / "answers.json"
    asked = ("why", "WH-302", "dim", "--case", str(case), "--answers", str(answers), "--json")
    answers.write_text('["no dangers", {"sign": "soot", "said": "yes"}]', "utf-8")
    assert typed(*asked).code == 0
    answers.write_text('[{"sign": "soot", "said": "no"}]', "utf-8")
    anew = typed(*asked)
    assert (anew.code, json.loads(anew.out)["clash"]) == (0, [])
    kept = [one for one in json.loads(case.read_text("utf-8"))["events"] if "sign" in one]
    assert kept == [{"sign": "soot", "said": "no"}]


def test_a_cracked_font_ends_the_call_at_the_bench() -> None:
    """A cracked font would be cleared by word of mouth."""
    place = str(ASKED.index("cracked-font") + 1)
    found = typed("why", "WH-302", "dim", lines=(place, "y", "1"))
    assert found.code == 1
    assert "No telephone call can settle this." in found.out


def test_back_takes_the_last_answer_back() -> None:
    """A slip would have to be lived with, or more than the slip be lost."""
    back = typed("why", "DU-401", "dim", lines=(NONE_OF_THESE, "n", "n", "b")).out
    once = typed("why", "DU-401", "dim", lines=(NONE_OF_THESE, "n")).out
    asked, slip = last_question(once), last_question(once, before=1)
    assert asked != slip
    assert last_question(back) == asked
    taken = f"  Taken back: {SIGNS[asked].says}: no.\n\n{asked}\n"
    assert taken in back
    again = typed("why", "DU-401", "dim", lines=(NONE_OF_THESE, "n", "n", "b", "n")).out
    twice = typed("why", "DU-401", "dim", lines=(NONE_OF_THESE, "n", "n")).out
    assert after_the_last_answer(again) == after_the_last_answer(twice)


def last_question(out: str, before: int = 0) -> str:
    """Return the last question that is asked, or one before it."""
    return [line for line in out.splitlines() if line in SIGNS][-1 - before]


def after_the_last_answer(out: str) -> str:
    return out.rpartition("\n> n\n")[2]


def test_why_do_you_ask_is_answered_and_the_question_asked_again() -> None:
    """A caller who wonders would get no reason, or the next question."""
    found = typed("why", "WH-302", "dim", "--at", "1900m", lines=(NONE_OF_THESE, "w"))
    assert "It speaks to this:" in found.out
    assert "Not asked, because it was worked out: your glass is 37.1 mm short" in found.out


def test_a_case_is_kept_and_taken_up_again(tmp_path: Path) -> None:
    """A call that breaks off would begin anew."""
    kept = tmp_path / "case.json"
    ask = ("why", "WH-302", "dim", "--at", "1900m", "--case", str(kept))
    first = typed(*ask, lines=(NONE_OF_THESE,))
    assert json.loads(kept.read_text())["events"][0] == {"danger": "unwell", "said": "no"}
    again = typed(*ask)
    assert "taken up again after 7 answers" in again.out
    assert "Is any of these so?" not in again.out
    last = [line for line in first.out.splitlines() if line.endswith("?")][-1]
    assert last in again.out


def test_a_case_of_another_lamp_is_not_taken_up(tmp_path: Path) -> None:
    """Answers about one lamp would be read as answers about another."""
    kept = tmp_path / "case.json"
    typed("why", "WH-302", "dim", "--case", str(kept), lines=(NONE_OF_THESE,))
    found = typed("why", "DU-401", "dim", "--case", str(kept))
    assert found.code == 2
    assert found.err == (
        f"Error: '{kept}' keeps a case of WH-302 and 'dim', not of DU-401 and 'dim': name "
        "another file, or that lamp and complaint\n"
    )


def test_all_answers_at_once_give_the_next_step_as_data(tmp_path: Path) -> None:
    """A machine could not take a call."""
    answers = tmp_path / "answers.json"
    answers.write_text(
        '["no dangers", {"sign": "smell-lit", "said": "no"}, {"sign": "soot", "said": "no"}]'
    )
    found = as_json("why", "WH-302", "dim", "--at", "1900m", "--answers", str(answers))
    best = found["best"]
    assert isinstance(best, dict)
    assert (best["do"], best["key"], best["price"]) == ("act", "suit-place", "70.00")
    gate = found["gate"]
    assert isinstance(gate, dict)
    assert gate["open"] is True


def test_while_the_gate_is_shut_no_step_needs_a_flame(tmp_path: Path) -> None:
    """A machine would tell a caller to light a leaking lamp."""
    answers = tmp_path / "answers.json"
    answers.write_text('["no dangers", {"sign": "font-wet", "said": "yes"}]')
    found = as_json("why", "WH-302", "dim", "--answers", str(answers))
    assert found["best"] is None
    steps = found["steps"]
    assert isinstance(steps, list)
    assert {step["do"] for step in steps} <= {"ask", "bench"}
    assert "lit" not in {step["lamp_must_be"] for step in steps}


def test_every_fault_of_a_file_of_answers_is_told_at_once(tmp_path: Path) -> None:
    """A file with three slips would be refused three times."""
    answers = tmp_path / "answers.json"
    answers.write_text('[{"sign": "smel-lit", "said": "perhaps"}, 7]')
    found = said("why", "WH-302", "dim", "--answers", str(answers))
    assert found.code == 2
    lines = found.err.splitlines()
    assert lines[0] == f"Error: '{answers}' cannot be used:"
    assert lines[1].startswith("  event 1: there is no sign 'smel-lit'; did you mean 'smell-lit'?")
    assert lines[2].startswith("  event 1: there is no answer 'perhaps'; ")
    assert lines[3].startswith("  event 2: it is no event; write {")


@pytest.mark.parametrize("text", ["", "{", "7", '{"events": 3}'])
def test_a_file_that_is_no_list_of_answers_is_refused(tmp_path: Path, text: str) -> None:
    """A broken file would end in a traceback."""
    answers = tmp_path / "answers.json"
    answers.write_text(text)
    found = said("why", "WH-302", "dim", "--answers", str(answers))
    assert found.code == 2
    assert "Traceback" not in found.err
    assert str(answers) in found.err


def test_words_that_are_near_no_complaint_are_refused_with_those_there_are() -> None:
    """A caller's words would be taken for something at random."""
    found = typed("why", "WH-302", "please send a catalogue")
    assert found.code == 2
    assert found.err.startswith(
        "Error: 'please send a catalogue' is near no complaint of the book; it has: leaks, "
    )


# -- which ---------------------------------------------------------------------------------------


def test_asking_stops_when_what_to_send_is_settled() -> None:
    """The adviser would go on to the model though every model left takes the same glass."""
    found = typed("which", "renew-chimney", "--lost", "chimney", lines=("1", "1"))
    assert found.code == 0
    assert "models left, " in found.out
    assert "That settles what to send.\nMost likely it is the Stoura table lamp (TY-101).\n" in (
        found.out
    )
    assert "What to send" in found.out


def test_the_model_alone_can_be_asked_for() -> None:
    """A caller who only wants to know the name would be sent a parcel."""
    found = as_json("which", "--lamps", "DU-401,DU-402")
    lamps = found["lamps"]
    assert isinstance(lamps, list)
    assert {lamps[0]["lamp"], lamps[1]["lamp"]} == {"DU-401", "DU-402"}
    assert found["parcels"] == []


def test_what_was_seen_can_come_from_a_file(tmp_path: Path) -> None:
    """A machine could not ask which lamp it is."""
    heard = tmp_path / "heard.json"
    heard.write_text(
        '[{"look": "base-stance", "value": "a frame hung from above"},'
        ' {"look": "chimney-height", "value": "29.6 cm"}, {"bought": 1990}]'
    )
    found = as_json("which", "--answers", str(heard))
    lamps = found["lamps"]
    assert isinstance(lamps, list)
    assert lamps[0]["lamp"] == "DU-403"
    told = found["heard"]
    assert isinstance(told, list)
    assert told[1] == {"look": "chimney-height", "length_m": pytest.approx(0.296)}


def test_every_slip_in_what_was_seen_is_told_at_once(tmp_path: Path) -> None:
    """A file with slips would be refused one by one, or read as something else."""
    heard = tmp_path / "heard.json"
    heard.write_text(
        '[{"look": "base-stanc", "value": "x"}, {"look": "base-magnet", "value": "perhaps"},'
        ' {"look": "base-height", "value": "tall"}, {"lamps": ["ZZ-1"]}, 5]'
    )
    found = said("which", "--answers", str(heard))
    assert found.code == 2
    lines = found.err.splitlines()
    assert lines[1] == (
        "  answer 1: there is no look 'base-stanc'; did you mean 'base-stance'? 'wickwright book "
        "list looks' names them"
    )
    assert lines[2].startswith("  answer 2: the look 'base-magnet' has no answer 'perhaps'; ")
    assert lines[3] == (
        "  answer 3: 'tall' is no length; write a length with its unit, such as 31 cm or 12 1/4 in"
    )
    assert lines[4].startswith("  answer 4: there is no lamp 'ZZ-1'; ")
    assert lines[5].startswith("  answer 5: it is nothing a caller says; write {")


def test_a_call_about_a_lamp_is_kept_and_taken_up_again(tmp_path: Path) -> None:
    """A call that breaks off would begin anew."""
    kept = tmp_path / "lamp.json"
    typed("which", "--case", str(kept), lines=("1",))
    assert len(json.loads(kept.read_text())["heard"]) == 1
    again = as_json("which", "--case", str(kept))
    heard = again["heard"]
    assert isinstance(heard, list)
    assert len(heard) == 1


def test_a_lamp_that_is_not_in_the_book_is_refused() -> None:
    """A slip in a model number would be taken for a lamp nobody has."""
    found = said("which", "--lamps", "DU-4O1")
    assert found.code == 2
    assert "there is no lamp 'DU-4O1'" in found.err


_HIGH = ("why", "WH-302", "dim", "--at", "1900m")
_DONE = ["no dangers", {"remedy": "suit-place", "outcome": "still wrong"}]


def _kept_events(path: Path) -> list[object]:
    found: list[object] = json.loads(path.read_text())["events"]
    return found


def test_no_page_of_why_names_an_option_it_does_not_have() -> None:
    """If this failed, an adviser would type '--all' and be told that there is no such option."""
    told = typed(*_HIGH, lines=("none", "n", "n", "q")).out
    assert "Other ways, each better in something" in told
    assert "--all" not in told
    assert said(*_HIGH, "--all").code == 2
    assert "'--all' prints them in" in said("fit", "WH-302", "suit-place", "--at", "1900m").out


def test_what_was_bought_can_be_said_with_the_command(tmp_path: Path) -> None:
    """If this failed, only the cheapest way could ever be on the lamp afterwards."""
    given, case = tmp_path / "given.json", tmp_path / "case.json"
    given.write_text(json.dumps(_DONE))
    asked = (*_HIGH, "--answers", str(given), "--case", str(case))
    assert said(*asked, "--bought", "bu-3210,CH-3371").code == 0
    assert _kept_events(case)[-1] == {**_act(), "bought": ["BU-3210", "CH-3371"]}
    again = said("why", "WH-302", "dim", "--case", str(case), "--json")
    assert json.loads(again.out)["events"] == _kept_events(case)
    wrong = said(*asked, "--bought", "CH-2296")
    assert wrong.code == 2
    assert "no way of 'suit-place' buys CH-2296: name all that was bought for it" in wrong.err


def _act() -> dict[str, object]:
    return {"remedy": "suit-place", "outcome": "still wrong"}


def test_bought_without_anything_done_is_refused() -> None:
    """If this failed, what was said to be bought would be forgotten without a word."""
    found = said(*_HIGH, "--bought", "CH-3371")
    assert (found.code, found.err) == (
        2,
        (
            "Error: --bought says which way was bought for a remedy that did not help, and no such "
            "remedy stands in this call: give it with --answers or --case, or leave --bought out\n"
        ),
    )


def test_parts_that_are_no_list_are_refused(tmp_path: Path) -> None:
    """If this failed, a slip in a file would be taken for 'the cheapest way'."""
    path = tmp_path / "given.json"
    path.write_text(json.dumps([{**_act(), "bought": "CH-3371"}]))
    found = said(*_HIGH, "--answers", str(path))
    assert found.err == (
        f"Error: '{path}' cannot be used:\n"
        "  event 1: 'bought' is 'CH-3371'; write a list of part numbers\n"
    )


def test_the_conversation_asks_which_way_was_bought(tmp_path: Path) -> None:
    """If this failed, the next question would be about a lamp the caller does not have."""
    case = tmp_path / "case.json"
    typed(*_HIGH, "--case", str(case), lines=("none", "n", "n", "2", "w", "4", "q"))
    assert _kept_events(case)[-1] == {**_act(), "bought": ["BU-3210", "CH-3371"]}
