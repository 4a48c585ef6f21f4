"""A caller who asks to be forgotten is nowhere any more: not in a table, not in the file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.stores.filled import ANN, AT, LATER

from wickwright.answers.sheet.call_record import Call, Caller, Closing, Said
from wickwright.answers.sheet.desk_store import KeptReply, NothingToTakeBack
from wickwright.store.opening import open_store
from wickwright.store.schema import TABLES
from wickwright.store.table_lines import table_lines

if TYPE_CHECKING:
    from pathlib import Path

    from wickwright.answers.plain.answers import Plain
    from wickwright.store.opening import KeptStore

NAME, CONTACT, ADDRESS = "Ödön Quistgaard-Þ", "555-01739", "17 Kestrel Wharf, Ullsby"
WORDS = "my late mother's parlour lamp smoked up the ceiling"
SECRETS = (NAME, CONTACT, ADDRESS, WORDS, "Ullsby", "odon quistgaard", "kestrel", "the adviser's")
SHEET = Said(
    words=WORDS,
    place="Ullsby",
    elevation=120.0,
    lamp="L-1",
    have=("CH-1",),
    events=({"sign": "soot"},),
    reply=f"Dear {NAME}, clean the wick.",
    note="the adviser's note",
)


def tell_everything(store: KeptStore) -> Call:
    """Keep a call in which the caller's data stand wherever they can."""
    call = store.calls.begin(Said(), Caller(NAME, CONTACT, ADDRESS), ANN, "book", AT)
    store.calls.save(1, 1, SHEET, "Ann", AT)
    store.calls.save(1, 2, Said(words=WORDS[:30], lamp="L-1"), "Ann", AT)
    store.calls.hand_over(1, 3, "back", f"ring {NAME} on {CONTACT}", "Ann", AT)
    store.calls.attach(1, "image/jpeg", f"the face of {NAME}".encode(), f"{NAME}'s lamp", "Bo", AT)
    letter: dict[str, Plain] = {"letter": "Dear Sir, ...", "order": {"lines": ["CH-1"]}}
    store.calls.give(1, "reply", letter, "Bo", AT)
    store.calls.give(1, "order", {"lines": ["CH-1"], "to": f"{NAME}, {ADDRESS}"}, "Bo", AT)
    sheet: Plain = {
        "caller": {"anything": "Ullsby"},
        "heading": f"For {NAME.upper()}",
        "lamp": "L-1",
    }
    store.calls.give(1, "fit sheet", {"page": [sheet], "note": "the adviser's"}, "Bo", AT)
    store.calls.close(1, 4, Closing("it burns", ("soot",), note=f"{NAME} rang back"), "Bo", AT)
    store.calls.reopen(1, 5, "Bo", AT)
    store.calls.close(1, 6, Closing("it burns", ("soot",), note=f"{NAME} again"), "Bo", AT)
    body = b'{"caller": "\\u00d6d\\u00f6n Quistgaard-\\u00de"}'
    store.replies.keep(KeptReply("k1", "p", 201, body), AT)
    store.replies.keep(KeptReply("k3", "p", 201, f'{{"said": "{WORDS}"}}'.encode()), AT)
    store.replies.keep(KeptReply("k2", "p", 201, b'{"caller": "somebody else"}'), AT)
    return call


def dumped(store: KeptStore) -> str:
    """Return every row of every table as text."""
    with store.engines.reading() as connection:
        lines = [
            line.decode()
            for table in TABLES.sorted_tables
            if table.name not in {"photos", "replies"}
            for line in table_lines(connection, table)
        ]
    return "\n".join(lines)


def test_nothing_of_a_caller_is_left_in_any_table(store: KeptStore) -> None:
    """If this fails, somebody who asked to be forgotten is still found at the desk."""
    tell_everything(store)
    assert all(secret in dumped(store) for secret in (*SECRETS[:5], SECRETS[7]))
    call = store.calls.erase(1, "Lea", LATER)
    assert isinstance(call, Call)
    left = dumped(store)
    assert [secret for secret in SECRETS if secret in left] == []
    assert store.calls.photos(1) == ()
    assert store.replies.kept("k1") is None
    assert store.replies.kept("k3") is None
    assert store.replies.kept("k2") is not None
    for word in ("quistgaard", "mother's", "ullsby"):
        assert store.calls.find(word) == ()


def test_what_was_asked_found_and_done_stays(store: KeptStore) -> None:
    """If this fails, a caller's wish to be forgotten takes along what the call teaches."""
    tell_everything(store)
    store.calls.erase(1, "Lea", LATER)
    call = store.calls.call(1)
    assert call is not None
    assert (call.caller, call.said) == (Caller(), Said(lamp="L-1"))
    assert call.closing == Closing("it burns", ("soot",))
    assert (call.version, call.adviser, call.changed) == (8, "Lea", LATER)
    said = store.calls.trail(1)[1]
    assert said.after == {
        "elevation": 120.0,
        "lamp": "L-1",
        "have": ["CH-1"],
        "events": [{"sign": "soot"}],
    }
    dids = [step.did for step in store.calls.trail(1)]
    assert dids[-2:] == ["closed", "erased"]
    assert [one.answer for one in store.calls.given(1)] == [
        {"letter": None, "order": {"lines": ["CH-1"]}},
        {"lines": ["CH-1"], "to": ""},
        {"page": [{"caller": None, "heading": "", "lamp": "L-1"}], "note": None},
    ]
    assert store.calls.closed() == (call,)


def test_a_step_back_does_not_bring_words_back(store: KeptStore) -> None:
    """If this fails, taking back undoes the erasing."""
    store.calls.begin(Said(words=WORDS), Caller(NAME), ANN, "book", AT)
    store.calls.save(1, 1, Said(words="more", lamp="L-1"), "Ann", AT)
    store.calls.save(1, 2, Said(words="still more", lamp="L-1"), "Ann", AT)
    store.calls.erase(1, "Lea", LATER)
    call = store.calls.take_back(1, 4, "Ann", LATER)
    assert isinstance(call, Call)
    assert call.said == Said()
    assert store.calls.take_back(1, 5, "Ann", LATER) == NothingToTakeBack()


def test_a_part_of_another_word_is_no_name(store: KeptStore) -> None:
    """If this fails, erasing a caller named Al blanks every line that says metal."""
    store.calls.begin(Said(words="wick"), Caller("Al"), ANN, "book", AT)
    answer: dict[str, Plain] = {"says": ["metal gallery", "for Al, with care", "a new wick"]}
    store.calls.give(1, "order", answer, "Ann", AT)
    store.calls.erase(1, "Lea", LATER)
    assert store.calls.given(1)[0].answer == {"says": ["metal gallery", "", "a new wick"]}


@pytest.mark.parametrize("at_the_end", [False, True])
def test_nothing_of_a_caller_is_left_in_the_file(tmp_path: Path, *, at_the_end: bool) -> None:
    """If this fails, whoever copies the disk still reads the name."""
    store = open_store(tmp_path / "desk.sqlite")
    tell_everything(store)
    if at_the_end:  # in a transaction with other writes
        with store.together():
            store.ledger.note("Lea", "erases", "", LATER)
            store.calls.erase(1, "Lea", LATER)
    else:
        store.calls.erase(1, "Lea", LATER)
    files = sorted(tmp_path.iterdir())
    assert [path.name for path in files][:2] == ["desk.sqlite", "desk.sqlite-lock"]
    raw = b"".join(path.read_bytes() for path in files)
    store.close()
    raw += b"".join(path.read_bytes() for path in tmp_path.iterdir())
    assert b"L-1" in raw
    for secret in (*SECRETS, "Quistgaard", "mother", "the face of"):
        assert secret.encode() not in raw, secret
        assert secret.encode("unicode-escape") not in raw, secret
