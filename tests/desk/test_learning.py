"""What closed calls teach, and how it comes into force."""

from __future__ import annotations

from tests.answers.sheet.test_call_sheet import after
from tests.support.demo import demo
from tests.support.desks import Desk, new_desk

from wickwright.answers.sheet.call_record import Caller, Closing, Said
from wickwright.catalogue.reading import read_book
from wickwright.cause.closed import read_closed
from wickwright.cause.dangers import GUARDS


def closed(desk: Desk, count: int, cause: str, confirmed: str = "bench") -> None:
    store, state = desk.state.store, desk.state
    person = store.people.person("Tomas")
    assert person is not None
    said = after(Said(words="dim, says Anna Berg"), choose="complaint:dim", lamp="WH-302")
    said = after(said, place="0 m", asked=list(GUARDS))
    for _ in range(count):
        revision = state.books.in_force().revision.id
        call = store.calls.begin(said, Caller("Anna Berg"), person, revision, desk.clock())
        closing = Closing("it burns well", (cause,), confirmed)
        store.calls.close(call.number, call.version, closing, "Tomas", desk.clock())


def a_cause() -> str:
    causes = demo().book.calls.causes
    return next(key for key, one in causes.items() if not one.needs and not one.families)


def test_confirmed_calls_move_the_numbers_and_nothing_is_in_force_before_it_is_signed() -> None:
    """If this failed, closed calls would teach nothing, or change answers unseen."""
    desk = new_desk()
    closed(desk, 12, a_cause())
    browser = desk.logged_in("Ingrid")
    before = desk.state.books.in_force().revision.id
    page = browser.get("/learning").text
    assert "12 of 12 closed calls" in page
    assert f"causes: {a_cause()} weight" in page
    answer = browser.post("/learning", {"reason": "a year of the bench's findings"})
    assert answer.status_code == 303
    revision = answer.headers["location"].split("/")[-1].split("?")[0]
    assert revision != before
    assert desk.state.books.in_force().revision.id == before
    tables = desk.state.store.books.tables(revision)
    assert tables is not None
    book = read_book(tables)
    assert not isinstance(book, tuple)
    old, new = demo().book.calls.causes[a_cause()].weight, book.calls.causes[a_cause()].weight
    assert new > old
    mark = book.revisions[-1]
    assert (mark.name, mark.reason) == ("Ingrid", "a year of the bench's findings")
    assert mark.day == desk.clock().date()


def test_learning_without_a_reason_is_refused() -> None:
    """If this failed, nobody could say later why the numbers were changed."""
    desk = new_desk()
    closed(desk, 3, a_cause())
    answer = desk.logged_in("Ingrid").post("/learning", {"reason": "  "})
    assert answer.status_code == 400
    assert "It is not signed" in answer.text


def test_no_name_or_word_of_a_caller_is_among_the_cases() -> None:
    """If this failed, an erased caller would live on in what was learned."""
    desk = new_desk()
    closed(desk, 2, a_cause())
    text = desk.logged_in("Ingrid").get("/learning/cases.jsonl").text
    assert "Anna" not in text
    cases, faults = read_closed(text.splitlines(), demo().book)
    assert (len(cases), faults) == (2, ())


def test_calls_of_causes_this_book_does_not_know_are_passed_over() -> None:
    """If this failed, one old call would keep the whole desk from learning."""
    desk = new_desk()
    closed(desk, 1, "a-cause-of-long-ago")
    assert "0 of 1 closed calls" in desk.logged_in("Ingrid").get("/learning").text


def test_only_a_lead_learns() -> None:
    """If this failed, anyone at a desk could change what all desks answer."""
    desk = new_desk()
    assert desk.logged_in("Tomas").get("/learning").status_code == 403
