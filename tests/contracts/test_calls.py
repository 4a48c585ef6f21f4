"""What every store does with calls, SQLite and PostgreSQL alike."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy.exc import StatementError

from wickwright.answers.sheet.call_record import Call, Caller, CallState, Closing, Said
from wickwright.answers.sheet.desk_store import (
    NothingToTakeBack,
    Person,
    Role,
    Stale,
    Store,
    Unknown,
)

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain

AT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)
LATER = AT + timedelta(minutes=7)
ANN = Person("Ann", Role.ADVISER, "front", "")


def begun(store: Store, said: Said = Said(), caller: Caller = Caller()) -> Call:  # noqa: B008 - frozen
    return store.calls.begin(said, caller, ANN, "book-1", AT)


def saved(found: object) -> Call:
    assert isinstance(found, Call)
    return found


def test_a_call_begins_at_a_persons_desk_and_is_found_by_its_number(store: Store) -> None:
    """If this fails, a call that was begun is not there when it is looked for."""
    said = Said(words="my glass broke", elevation=1609.0, have=("CH-1",), heard=({"a": [1]},))
    caller = Caller("Ida Holm", "555 0100", "1 Quay Lane")
    call = begun(store, said, caller)
    assert call == Call(1, 1, CallState.OPEN, "front", "Ann", AT, AT, "book-1", caller, said, None)
    assert store.calls.call(1) == call
    assert begun(store).number == 2
    assert store.calls.call(3) is None
    (step,) = store.calls.trail(1)
    assert (step.version, step.at, step.who, step.did, step.before) == (1, AT, "Ann", "begun", {})
    assert step.after["words"] == "my glass broke"
    assert "lamp" not in step.after


def test_what_is_said_is_kept_with_its_step(store: Store) -> None:
    """If this fails, a sheet comes back as it was before, or nobody can tell who changed it."""
    begun(store, Said(words="dim"))
    call = saved(store.calls.save(1, 1, Said(words="dim", count=2), "Bo", LATER))
    assert (call.version, call.adviser, call.opened, call.changed) == (2, "Bo", AT, LATER)
    assert store.calls.call(1) == call
    last = store.calls.trail(1)[-1]
    assert (last.version, last.at, last.who, last.did) == (2, LATER, "Bo", "said")
    assert (last.before, last.after, last.note) == ({"count": 1}, {"count": 2}, "")


def test_the_same_again_writes_nothing(store: Store) -> None:
    """If this fails, each look at a sheet makes everybody else's stale."""
    call = begun(store, Said(words="dim"), Caller("Ida"))
    assert store.calls.save(1, 1, Said(words="dim"), "Bo", LATER) == call
    assert store.calls.save_caller(1, 1, Caller("Ida"), "Bo", LATER) == call
    assert store.calls.move(1, 1, "book-1", "Bo", LATER) == call
    assert store.calls.reopen(1, 1, "Bo", LATER) == call
    assert len(store.calls.trail(1)) == 1


def test_a_save_that_was_not_answered_may_be_sent_again(store: Store) -> None:
    """If this fails, whoever lost the line is told that somebody else changed the call."""
    begun(store)
    call = store.calls.save(1, 1, Said(words="dim"), "Ann", AT)
    assert store.calls.save(1, 1, Said(words="dim"), "Ann", LATER) == call


def test_the_second_of_two_is_told_and_overwrites_nothing(store: Store) -> None:
    """If this fails, what one adviser typed is gone without a word."""
    begun(store)
    first = saved(store.calls.save(1, 1, Said(words="one"), "Ann", AT))
    writes = (
        store.calls.save(1, 1, Said(words="two"), "Bo", LATER),
        store.calls.save_caller(1, 1, Caller("Ida"), "Bo", LATER),
        store.calls.hand_over(1, 1, "back", "", "Bo", LATER),
        store.calls.close(1, 1, Closing("it burns"), "Bo", LATER),
        store.calls.move(1, 1, "book-2", "Bo", LATER),
        store.calls.take_back(1, 1, "Bo", LATER),
    )
    assert writes == (Stale(first),) * len(writes)
    assert store.calls.call(1) == first
    assert len(store.calls.trail(1)) == 2


def test_what_is_not_there_is_told_as_such(store: Store) -> None:
    """If this fails, a wrong number ends in a fault of the program."""
    nobody = Unknown("call 9")
    assert store.calls.save(9, 1, Said(), "Ann", AT) == nobody
    assert store.calls.save_caller(9, 1, Caller("Ida"), "Ann", AT) == nobody
    assert store.calls.take_back(9, 1, "Ann", AT) == nobody
    assert store.calls.hand_over(9, 1, "back", "", "Ann", AT) == nobody
    assert store.calls.close(9, 1, Closing("it burns"), "Ann", AT) == nobody
    assert store.calls.reopen(9, 1, "Ann", AT) == nobody
    assert store.calls.move(9, 1, "book-2", "Ann", AT) == nobody
    assert store.calls.erase(9, "Ann", AT) == nobody
    assert store.calls.attach(9, "image/png", b"", "", "Ann", AT) == nobody
    assert store.calls.give(9, "order", {}, "Ann", AT) == nobody
    assert store.calls.trail(9) == ()
    assert store.calls.photos(9) == ()
    assert store.calls.given(9) == ()
    assert store.calls.photo(9, 9) is None


@pytest.mark.parametrize("number", [0, -1, 2**31, 2**70])
def test_a_number_no_call_can_have_is_no_call(store: Store, number: int) -> None:
    """If this fails, a mistyped number ends in a fault of the database."""
    begun(store)
    assert store.calls.call(number) is None
    assert isinstance(store.calls.save(number, 1, Said(), "Ann", AT), Unknown)
    assert isinstance(store.calls.save(1, number, Said(words="x"), "Ann", AT), Stale)
    assert isinstance(store.calls.take_back(number, 1, "Ann", AT), Unknown)
    assert isinstance(store.calls.erase(number, "Ann", AT), Unknown)
    assert isinstance(store.calls.attach(number, "image/png", b"", "", "Ann", AT), Unknown)
    assert isinstance(store.calls.give(number, "order", {}, "Ann", AT), Unknown)
    assert store.calls.trail(number) == ()
    assert store.calls.photo(1, number) is None
    assert store.calls.find(str(number)) == ()


def test_steps_are_taken_back_one_after_the_other(store: Store) -> None:
    """If this fails, an adviser who went wrong twice gets back only the last of it."""
    sheets = [Said(), Said(words="dim"), Said(words="dim", lamp="L-1"), Said(lamp="L-1")]
    begun(store)
    for version, said in enumerate(sheets[1:], 1):
        store.calls.save(1, version, said, "Ann", AT)
    store.calls.save_caller(1, 4, Caller("Ida"), "Ann", AT)
    for version, said in zip((5, 6, 7), reversed(sheets[:-1]), strict=True):
        call = saved(store.calls.take_back(1, version, "Bo", LATER))
        assert (call.said, call.version, call.caller) == (said, version + 1, Caller("Ida"))
    assert store.calls.take_back(1, 8, "Bo", LATER) == NothingToTakeBack()
    store.calls.save(1, 8, Said(words="smells"), "Ann", AT)
    assert saved(store.calls.take_back(1, 9, "Bo", LATER)).said == Said()
    assert store.calls.take_back(1, 10, "Bo", LATER) == NothingToTakeBack()
    dids = [trace.did for trace in store.calls.trail(1)]
    assert dids == ["begun", *["said"] * 3, "caller", *["taken back"] * 3, "said", "taken back"]


def test_a_call_is_closed_and_opened_again(store: Store) -> None:
    """If this fails, how a call ended is lost, or a closed call cannot be taken up."""
    closing = Closing("it burns", ("carbon",), "after the remedy", "rang back")
    begun(store)
    call = saved(store.calls.close(1, 1, closing, "Ann", LATER))
    assert (call.state, call.closing) == (CallState.CLOSED, closing)
    assert store.calls.closed() == (call,)
    assert store.calls.open_calls() == ()
    call = saved(store.calls.reopen(1, 2, "Bo", LATER))
    assert (call.state, call.closing, call.version) == (CallState.OPEN, None, 3)
    assert store.calls.closed() == ()
    assert [one.number for one in store.calls.open_calls()] == [1]
    assert store.calls.trail(1)[-1].before == {
        "outcome": "it burns",
        "causes": ["carbon"],
        "confirmed": "after the remedy",
        "note": "rang back",
    }


def test_a_call_is_laid_on_another_desk_with_its_trail(store: Store) -> None:
    """If this fails, a call that was handed over lies nowhere."""
    begun(store)
    begun(store)
    call = saved(store.calls.hand_over(1, 1, "back", "has the lamp in hand", "Ann", LATER))
    assert call.desk == "back"
    assert [one.number for one in store.calls.open_calls("back")] == [1]
    assert [one.number for one in store.calls.open_calls("front")] == [2]
    assert [one.number for one in store.calls.open_calls()] == [1, 2]
    last = store.calls.trail(1)[-1]
    assert (last.did, last.note) == ("handed over", "has the lamp in hand")


def test_open_calls_are_told_by_desk_and_a_few_at_a_time(store: Store) -> None:
    """If this fails, a page of open calls shows them all at once, or leaves some out."""
    for _ in range(5):
        begun(store)
    saved(store.calls.hand_over(2, 1, "back", "", "Ann", LATER))
    saved(store.calls.close(4, 1, Closing("it burns"), "Ann", LATER))
    assert store.calls.open_desks() == {"back": 1, "front": 3}
    assert [one.number for one in store.calls.open_calls(but="back")] == [1, 3, 5]
    assert [one.number for one in store.calls.open_calls("front", most=2)] == [1, 3]
    assert [one.number for one in store.calls.open_calls(skip=1, most=2)] == [2, 3]
    assert store.calls.open_calls(skip=9) == ()
    assert store.calls.open_calls(most=0) == ()


def test_a_call_moves_to_another_book(store: Store) -> None:
    """If this fails, a call is answered from a book that no longer holds."""
    begun(store)
    assert saved(store.calls.move(1, 1, "book-2", "Ann", LATER)).revision == "book-2"
    last = store.calls.trail(1)[-1]
    assert (last.before, last.after) == ({"revision": "book-1"}, {"revision": "book-2"})


def test_a_call_is_found_whatever_the_capitals_and_accents(store: Store) -> None:
    """If this fails, a caller who rings again is taken for a new one."""
    begun(store, Said(words="My GLÄSS broke", lamp="WH-302"), Caller("José Ångström"))
    begun(store, Said(words="dim", have=("CH-1",), lost=("mantle",), route=("SH-9",)))
    store.calls.close(2, 1, Closing("it burns"), "Ann", AT)

    def found(text: str) -> list[int]:
        return [line.number for line in store.calls.find(text)]

    for text in ("jose", "ANGSTROM josé", "glass", "gläss BROKE", "wh-302", "wh302", "#1"):
        assert found(text) == [1], text
    for text in ("dim", "ch-1", "MANTLE", "sh9", "#2"):
        assert found(text) == [2], text
    for text in ("%", "_", "josé dim", "'", "\\", "broken", "7", "#3"):
        assert found(text) == [], text
    assert found("") == [2, 1]
    assert found("1") == [1, 2]
    assert [line.number for line in store.calls.find("", 1)] == [2]
    assert store.calls.find("", 0) == ()


def test_what_was_found_by_before_finds_no_longer(store: Store) -> None:
    """If this fails, a search shows calls for what no longer stands on them."""
    begun(store, Said(words="dim", have=("CH-1",)), Caller("Ida"))
    assert [line.number for line in store.calls.with_part("ch-1")] == [1]
    store.calls.save(1, 1, Said(words="smells", have=("CH-2",)), "Ann", AT)
    store.calls.save_caller(1, 2, Caller("Ada"), "Ann", AT)
    assert [store.calls.find(text) for text in ("dim", "ch-1", "ida")] == [()] * 3
    assert store.calls.with_part("CH-1") == ()
    assert [line.number for line in store.calls.with_part("CH-2")] == [1]
    assert store.calls.with_part("CH-2", 0) == ()
    store.calls.close(1, 3, Closing("it burns"), "Ann", AT)
    assert store.calls.with_part("CH-2") == ()


def test_a_call_is_found_by_the_parts_its_answer_sends(store: Store) -> None:
    """If this fails, nobody finds the calls a part goes out in when it runs short."""
    begun(store, Said(words="dim", have=("CH-1",)), Caller("Ida"))
    store.calls.note_sent(1, 1, ["CH-3371", "GA-2450"])
    for part in ("CH-1", "CH-3371", "ga-2450"):
        assert [line.number for line in store.calls.with_part(part)] == [1]
        assert [line.number for line in store.calls.find(f"{part} ida")] == [1]
    assert [trace.did for trace in store.calls.trail(1)] == ["begun"]
    saved(store.calls.save_caller(1, 1, Caller("Ada"), "Ann", LATER))
    assert [line.number for line in store.calls.find("CH-3371 ada")] == [1]
    store.calls.note_sent(1, 1, ["MA-2"])
    assert store.calls.with_part("MA-2") == (), "an answer to an older version was noted"
    store.calls.note_sent(1, 2, ["MA-2"])
    assert store.calls.with_part("CH-3371") == ()
    saved(store.calls.save(1, 2, Said(words="smells"), "Ann", LATER))
    assert store.calls.with_part("MA-2") == ()
    store.calls.note_sent(9, 1, ["MA-2"])


def test_lines_tell_what_a_list_shows(store: Store) -> None:
    """If this fails, a list of calls shows the wrong caller or lamp."""
    begun(store, Said(words="dim", lamp="WH-302"), Caller("Ida"))
    (line,) = store.calls.open_calls()
    assert store.calls.find("ida") == (line,)
    assert (line.number, line.state, line.desk, line.adviser) == (1, "open", "front", "Ann")
    assert (line.opened, line.changed) == (AT, AT)
    assert (line.caller, line.words, line.lamp) == ("Ida", "dim", "WH-302")


def test_photographs_are_kept_whole(store: Store) -> None:
    """If this fails, a picture of a lamp comes back broken or under another call."""
    begun(store)
    begun(store)
    body = bytes(range(256)) * 400
    photo = store.calls.attach(1, "image/png", body, "the foot", "Bo", LATER)
    assert not isinstance(photo, Unknown)
    assert (photo.call, photo.media, photo.size, photo.says) == (1, "image/png", 102400, "the foot")
    assert store.calls.photos(1) == (photo,)
    assert store.calls.photo(1, photo.number) == (photo, body)
    assert store.calls.photo(2, photo.number) is None
    assert store.calls.photos(2) == ()
    last = store.calls.trail(1)[-1]
    assert (last.did, last.who, last.version) == ("photo", "Bo", 1)
    call = store.calls.call(1)
    assert call is not None
    assert (call.version, call.adviser) == (1, "Ann")


def test_answers_are_kept_under_the_calls_version_and_book(store: Store) -> None:
    """If this fails, nobody can show again what a caller was told."""
    begun(store)
    store.calls.save(1, 1, Said(words="dim"), "Ann", AT)
    answer: dict[str, Plain] = {"z": [1, 2.5, None, True], "a": {"text": "Grüße"}}
    one = store.calls.give(1, "order", answer, "Bo", LATER)
    other = store.calls.give(1, "fit sheet", {}, "Bo", LATER)
    assert not isinstance(one, Unknown)
    assert (one.version, one.revision, one.what, one.who) == (2, "book-1", "order", "Bo")
    assert one.answer == answer
    assert list(one.answer) == ["z", "a"]
    assert store.calls.given(1) == (one, other)
    last = store.calls.trail(1)[-1]
    assert (last.did, last.note, last.version) == ("given", "fit sheet", 2)


def test_times_of_another_zone_come_back_in_utc(store: Store) -> None:
    """If this fails, the age of a call is wrong by hours."""
    from zoneinfo import ZoneInfo  # noqa: PLC0415 - only here

    here = AT.astimezone(ZoneInfo("America/Denver"))
    call = store.calls.begin(Said(), Caller(), ANN, "book-1", here)
    kept = store.calls.call(call.number)
    assert kept is not None
    assert kept.opened == AT
    assert kept.opened.tzinfo is UTC
    with pytest.raises(StatementError, match="has no zone: hand the store times in UTC"):
        store.calls.begin(Said(), Caller(), ANN, "book-1", AT.replace(tzinfo=None))
    assert len(store.calls.open_calls()) == 1


def test_writes_together_are_whole_or_not_at_all(store: Store) -> None:
    """If this fails, a write and the answer kept for it can be parted by a failure."""
    with store.together():
        call = begun(store)
        assert store.calls.call(call.number) == call
        store.ledger.note("Ann", "begun", "", AT)
    with pytest.raises(RuntimeError, match=r"^no more$"), store.together():  # noqa: PT012
        store.calls.save(1, 1, Said(words="dim"), "Ann", AT)
        store.ledger.note("Ann", "said", "", AT)
        raise RuntimeError("no more")  # noqa: EM101, TRY003 - the test's own
    assert store.calls.call(1) == replace(call, version=1)
    assert [line.what for line in store.ledger.newest()] == ["begun"]
