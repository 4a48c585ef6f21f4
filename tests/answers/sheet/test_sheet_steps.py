"""Steps on a sheet: what is taken, what is refused and with which words."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.answers.sheet.test_call_sheet import NO_TOWNS, after, memory, worked

from wickwright.answers.places.place_names import two_heights
from wickwright.answers.sheet.call_record import Said
from wickwright.answers.sheet.steps import FIELDS, Typed, step_taken
from wickwright.cause.dangers import GUARDS

_NO_KIND = "there is no kind of part 'shoe': choose from those that are shown"


def refused(**fields: str | list[str]) -> list[str]:
    texts = {name: [one] if isinstance(one, str) else one for name, one in fields.items()}
    found, faults = step_taken(memory(), Said(), Typed(texts), lambda: NO_TOWNS)
    assert found == Said(), "a refused step changed the sheet"
    return [f"{fault.says}: {fault.cure}" for fault in faults]


def test_a_misspelt_lamp_is_refused_with_what_may_be_meant() -> None:
    """If this failed, an adviser would search a list for a slip of one letter."""
    said = after(Said(lamp="WH-302", wish="renew-chimney", elevation=40.0), lamp="BX-7O4")
    assert said.lamp == "BX-7O4", "what was typed is kept"
    sheet = worked(said)
    assert [f"{fault.says}: {fault.cure}" for fault in sheet.faults] == [
        (
            "there is no lamp 'BX-7O4' in this revision of the fit book: did you mean 'BX-704'? or "
            "leave it blank and answer what is asked"
        )
    ]
    assert (sheet.lamp, sheet.parcels) == ("", ()), "the lamp before it still stood"


@pytest.mark.parametrize("typed", ["WH 302", "wh302", "wh-302", " Wh\u2011302 "])
def test_a_lamp_is_read_however_its_number_is_written(typed: str) -> None:
    """If this failed, a lamp that is in the book would be called unknown for want of a dash."""
    assert after(Said(), lamp=typed).lamp == "WH-302"


@pytest.mark.parametrize("typed", ["5200", "5,200", "1900"])
def test_a_number_that_may_be_metres_or_feet_is_no_height_yet(typed: str) -> None:
    """If this failed, a caller in the mountains would be sent the glass for another height."""
    said = after(Said(elevation=40.0, place="40 m"), place=typed)
    assert (said.place, said.elevation) == (typed, None)
    assert two_heights(typed) == (f"{typed} m", f"{typed} ft")
    assert after(said, place=f"{typed} ft").elevation is not None


@pytest.mark.parametrize("typed", ["40", "0", "9000", "-50", "5200 ft", "Leadville", "", "x1"])
def test_a_height_that_can_be_only_one_is_not_asked_about(typed: str) -> None:
    """If this failed, an adviser would be asked for a unit that was said, or does not matter."""
    assert two_heights(typed) == ()


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"count": "0"}, "'0' is no whole number from 1 to 1000: write 1, 2, 3"),
        ({"people": "many"}, "'many' is no whole number from 0 to 200: write 1, 2, 3"),
        ({"choose": "wish:no"}, "there is no wish 'no': choose another"),
        ({"choose": "x"}, "there is no x '': choose another"),
        ({"look": "no"}, "there is no look 'no': answer what is asked"),
        (
            {"remedy": "suit-place", "outcome": "still wrong", "put_on": "CH-3371 XX-1"},
            "a part that was bought is not in the fit book: choose a way",
        ),
        ({"sign": "no", "said": "yes"}, "'yes' is no answer to 'no': answer yes, no or unknown"),
        ({"asked": "no"}, "there is no danger '': answer what is asked"),
        (
            {"cleared": "cracked-font"},
            "'cracked-font' cannot be cleared on the telephone: send it in",
        ),
        (
            {"cleared": "wet-font", "said": "no"},
            (
                "then the lamp stays out, and nothing that needs a flame is offered: come back to "
                "this call when it is so"
            ),
        ),
        ({"drop": "heard:0"}, "there is no such answer to take back: load the sheet again"),
        ({"looked": "yes", "missing": "shoe"}, _NO_KIND),
        ({"bought": "long ago"}, "'long ago' is no year: write it in four digits, such as 1951"),
        ({"bought": "51"}, "'51' is no year: write it in four digits, such as 1951"),
        (
            {"without": "ask:shade:0"},
            "that is not offered to be given up: load the sheet again",
        ),
        ({"drop": "given_up:0"}, "there is no such answer to take back: load the sheet again"),
        ({"route": "ZZ-1"}, "there is no part 'ZZ-1': choose a way that is shown"),
    ],
)
def test_what_cannot_be_is_refused_in_words(fields: dict[str, str], says: str) -> None:
    """If this failed, nonsense would stand on a sheet, or be refused without a word."""
    assert refused(**fields) == [says]


def test_the_good_of_a_list_is_taken_and_the_bad_told() -> None:
    """If this failed, one slip would lose everything typed beside it."""
    found, faults = step_taken(
        memory(), Said(), Typed({"lost": ["chimney, ch-2296 shoe"]}), lambda: NO_TOWNS
    )
    assert found.lost == ("chimney", "CH-2296")
    assert [fault.says for fault in faults] == [
        "there is no part or kind of part 'shoe' in the fit book"
    ]


def test_dangers_are_answered_all_at_once() -> None:
    """If this failed, a danger that was not ticked would be asked about again and again."""
    said = after(Said(), asked=list(GUARDS), danger=["wet-font"])
    there = [one["danger"] for one in said.events if isinstance(one, dict) and one["said"] == "yes"]
    assert there == ["wet-font"]
    assert len(said.events) == len(GUARDS)


def test_an_answer_is_taken_back_alone_or_with_its_neighbours() -> None:
    """If this failed, taking one answer back would take another."""
    said = after(Said(), asked=list(GUARDS))
    said = after(said, sign="soot", said="no")
    last = len(GUARDS) - 1
    left = after(said, drop=f"events:0-{last}").events
    assert left == ({"sign": "soot", "said": "no"},)
    assert after(said, drop=f"events:{last + 1}").events == said.events[:-1]


def test_a_place_is_a_height_or_not_known_yet() -> None:
    """If this failed, a lamp would be answered for another height than was said."""
    assert after(Said(), place="6200 ft").elevation == pytest.approx(1889.76)
    assert after(Said(), place="6200'").elevation == pytest.approx(1889.76)
    assert after(Said(), place="40").elevation == 40.0
    unsaid = after(after(Said(), place="1900 m"), place="don't know")
    assert (unsaid.place, unsaid.elevation) == ("don't know", None)
    town = after(Said(), town="Leadville, Colorado|3094")
    assert (town.place, town.elevation) == ("Leadville, Colorado", 3094.0)


@settings(max_examples=200, deadline=None)
@given(
    st.dictionaries(
        st.sampled_from([*FIELDS, "choose", "look", "value", "sign", "drop", "route", "town"]),
        st.lists(st.text(max_size=12) | st.sampled_from(["0", "-1", "heard:0", "wish:"])),
        max_size=5,
    )
)
def test_no_form_breaks_a_sheet(fields: dict[str, list[str]]) -> None:
    """If this failed, a hostile or broken form would end in a page that cannot be shown."""
    found, faults = step_taken(memory(), Said(), Typed(fields), lambda: NO_TOWNS)
    assert isinstance(found, Said)
    assert all(fault.says for fault in faults)


def test_a_part_of_a_name_leaves_the_lamps_it_may_be_and_a_number_ends_that() -> None:
    """If this failed, a caller who knows half a name would be asked as if nothing were known."""
    said = after(Said(), lamp="shelf")
    assert said.lamp == ""
    (kept,) = said.heard
    assert isinstance(kept, dict)
    names = {memory().compiled.book.lamps[str(one)].name for one in list(kept["lamps"] or ())}  # type: ignore[arg-type]
    book = memory().compiled.book.lamps.values()
    assert names == {lamp.name for lamp in book if "shelf" in lamp.name.lower()}
    assert len(names) > 1
    named = after(said, lamp="Tirrick")
    assert (named.lamp, named.heard) == ("WH-302", ())


def test_the_year_it_was_bought_in_narrows_and_is_taken_back_by_a_blank() -> None:
    """If this failed, what a caller knows of a lamp's age would be of no use."""
    said = after(Said(), bought="1951")
    assert said.heard == ({"bought": 1951},)
    assert after(said, bought="1960").heard == ({"bought": 1960},)
    assert after(said, bought=" ").heard == ()


def test_a_changed_answer_stands_where_it_stood() -> None:
    """If this failed, changing an answer would put it after what was done since."""
    said = after(Said(), sign="soot", said="no")
    said = after(said, remedy="turn-down", outcome="still wrong")
    changed = after(said, sign="soot", said="yes", instead="events:0")
    assert changed.events == ({"sign": "soot", "said": "yes"}, said.events[1])
    assert len(after(said, sign="soot", said="yes").events) == 3
    assert len(after(said, sign="soot", said="yes", instead="events:1").events) == 3


@pytest.mark.parametrize("typed", ["?", "d", "don't know", "Unknown"])
def test_not_knowing_where_it_stands_is_typed_too(typed: str) -> None:
    """If this failed, the key for it would be taken for a town while the field has the focus."""
    said = after(Said(), place=typed)
    assert (said.place, said.elevation) == ("don't know", None)
