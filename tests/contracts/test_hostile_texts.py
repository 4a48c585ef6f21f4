"""Texts that databases stumble over, in every field that somebody can type into."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickwright.answers.sheet.call_record import Call, Caller, Closing, Said
from wickwright.answers.sheet.desk_store import KeptReply, Noted, Person, Role, Unknown
from wickwright.store.column_types import keepable, keepable_plain

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.sheet.desk_store import Store

AT = datetime(2026, 3, 5, 9, 30, tzinfo=UTC)
HOSTILE = {
    "quotes": "Robert'); DROP TABLE calls;-- \" ` $$ %s %(name)s :name ?",
    "pattern": "100 % _ \\ [a-z] * ^",
    "html": "<script>alert(1)</script>&amp;",
    "signs": "e\u0301 \U0001f56f \u202e\ufeff\u2028 ﷺ İıßŁ",
    "lines": "a\r\nb\tc\x0b\x1f\x7f",
    "escapes": "\\u0000 \\ud800 {} null NaN",
    "long": "glass broke " * 90_000,
}


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE.keys())
def test_any_text_comes_back_from_any_field(store: Store, text: str) -> None:
    """If this fails, a caller's words are changed, or open the database to whoever writes them."""
    said = Said(
        words=text, place=text, lamp=text, have=(text,), events=({text: [text]},), reply=text
    )
    person, caller = Person(text, Role.ADVISER, text, text), Caller(text, text, text)
    store.people.put(person, text, AT)
    call = store.calls.begin(said, caller, person, text, AT)
    closing = Closing(text, (text,), text, text)
    store.calls.hand_over(1, 1, text, text, text, AT)
    store.calls.close(1, 2, closing, text, AT)
    kept = store.calls.call(1)
    assert kept is not None
    assert (kept.said, kept.caller, kept.desk, kept.revision) == (said, caller, text, text)
    assert kept.closing == closing
    assert store.calls.trail(1)[1].note == text
    assert store.people.person(text) == person
    assert isinstance(store.calls.reopen(1, 3, text, AT), Call)
    assert [line.number for line in store.calls.with_part(text)] == [1]
    assert [line.number for line in store.calls.find(text[:200])] == [1]
    assert [line.number for line in store.calls.find(text)] == [1]
    assert store.calls.find("nothing of the kind") == ()
    answer: dict[str, Plain] = {text: text}
    sent = store.calls.give(1, text, answer, text, AT)
    assert store.calls.given(1) == (sent,)
    store.calls.attach(1, text, b"", text, text, AT)
    assert store.calls.photos(1)[0].says == text
    store.ledger.note(text, text, text, AT)
    assert store.ledger.newest(1) == (Noted(AT, text, text, text),)
    reply = KeptReply(text, text, 200, text.encode())
    assert store.replies.keep(reply, AT) == reply == store.replies.kept(text)
    assert call.number == 1


@pytest.mark.parametrize("text", ["a\0b", "a\ud800b"])
def test_what_no_database_holds_is_kept_as_a_sign_of_it(store: Store, text: str) -> None:
    """If this fails, one sign that nobody typed ends in a fault, or in another text elsewhere."""
    kept = "a\ufffdb"
    person = Person(text, Role.ADVISER, text, text)
    call = store.calls.begin(
        Said(words=text, have=(text,), heard=({text: text},)), Caller(text, text), person, text, AT
    )
    assert call.said == Said(words=kept, have=(kept,), heard=({kept: kept},))
    assert (call.caller, call.adviser, call.desk) == (Caller(kept, kept), kept, kept)
    assert store.calls.call(1) == call
    again = Said(words=text, have=(text,), heard=({kept: text},))
    assert store.calls.save(1, 1, again, "", AT) == call
    assert [line.number for line in store.calls.find(text)] == [1]
    assert [line.number for line in store.calls.with_part(text)] == [1]
    assert store.people.put(person, text, AT) == Person(kept, Role.ADVISER, kept, kept)
    assert store.people.person(text) == store.people.person(kept)
    store.people.failed(text, AT)
    assert store.people.failures(kept, AT) == 1
    assert store.people.session(text) is None
    closed = store.calls.close(1, 1, Closing(text, (text,)), text, AT)
    assert isinstance(closed, Call)
    assert closed.closing == Closing(kept, (kept,))
    assert store.calls.call(1) == closed
    handed = store.calls.hand_over(1, 2, text, text, text, AT)
    assert store.calls.call(1) == handed
    photo = store.calls.attach(1, text, b"", text, text, AT)
    assert store.calls.photos(1) == (photo,)
    answer = store.calls.give(1, text, {text: text}, text, AT)
    assert not isinstance(answer, Unknown)
    assert answer.answer == {kept: kept}
    assert store.calls.given(1) == (answer,)
    store.ledger.note(text, text, text, AT)
    assert store.ledger.newest(1) == (Noted(AT, kept, kept, kept),)
    reply = store.replies.keep(KeptReply(text, text, 200, b""), AT)
    assert reply == KeptReply(kept, kept, 200, b"") == store.replies.kept(text)
    assert store.books.put_in_force(text, "", "", AT) == Unknown(f"revision {text}")
    assert store.books.tables(text) is None


@given(st.text(st.characters(), max_size=20))
def test_only_what_cannot_be_kept_is_replaced(text: str) -> None:
    """If this fails, more is taken out of a caller's words than has to be."""
    kept = keepable(text)
    assert len(kept) == len(text)
    assert kept.encode().decode() == kept
    assert all(
        one == other or (one == "\0" or "\ud800" <= one <= "\udfff")
        for one, other in zip(text, kept, strict=True)
    )
    assert keepable(kept) == kept
    assert keepable_plain({text: [text, {"a": text}, 1, None]}) == {
        kept: [kept, {"a": kept}, 1, None]
    }
