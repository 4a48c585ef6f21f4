"""What closed cases would change in the book, and what they may not."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest
from tests.support.demo import demo
from tests.support.small_calls import small_calls

import wickwright.data.demo.close_cases as made
from wickwright.catalogue.records import Signature
from wickwright.cause.case import Act, Answer, Case, Danger, Outcome, Said
from wickwright.cause.closed import ClosedCase, Confirmed, read_closed, written_closed
from wickwright.cause.learning import LARGE, Learned, learned_from, scored

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book

BOOK = demo().book
TODAY = date(2026, 7, 1)
FILE = Path(made.__file__).with_name("cases.jsonl")
LAMP = next(iter(BOOK.lamps.values()))


@cache
def cases() -> tuple[ClosedCase, ...]:
    read, faults = read_closed(FILE.read_text(encoding="utf-8").splitlines(), BOOK)
    assert not faults
    return read


@cache
def learnt() -> Learned:
    return learned_from(BOOK, cases(), TODAY)


def paper_book() -> Book:
    """Return the small tables with callers that never err and no sign without a cause."""
    calls = small_calls()
    sure = {
        key: replace(one, yes_right=1.0, no_right=1.0, anyway=0.0)
        for key, one in calls.signs.items()
    }
    return replace(BOOK, calls=replace(calls, signs=sure))


def closed(
    *events: Answer | Act | Danger, confirmed: Confirmed = Confirmed.BENCH, cause: str = "crusted"
) -> ClosedCase:
    case = Case(LAMP.id, tuple(LAMP.as_sold), "dim", events)
    return ClosedCase(case, Outcome.CURED, (cause,), confirmed, TODAY)


def strength(learned: Learned, cause: str, sign: str) -> float:
    return next(s.strength for s in learned.calls.shows if (s.cause, s.sign) == (cause, sign))


@pytest.mark.parametrize(
    ("said", "confirmed", "wanted"),
    [
        (Said.YES, Confirmed.BENCH, (8.5 + 1.0) / 11.0),
        (Said.NO, Confirmed.BENCH, 8.5 / 11.0),
        (Said.YES, Confirmed.RETURNED, (8.5 + 0.7) / 10.7),
        (Said.YES, Confirmed.TELEPHONE, (8.5 + 0.3) / 10.3),
        (Said.UNSURE, Confirmed.BENCH, 0.85),
        (Said.YES, Confirmed.NOT, 0.85),
    ],
)
def test_one_case_by_hand(said: Said, confirmed: Confirmed, wanted: float) -> None:
    """Ten cases of belief and one counted case would not be added up as on paper."""
    after = learned_from(paper_book(), [closed(Answer("uneven", said), confirmed=confirmed)], TODAY)
    assert strength(after, "crusted", "uneven") == pytest.approx(wanted, abs=5e-5)


def test_weights_by_hand() -> None:
    """A cause found would not gain its share, or one not found not lose it."""
    after = learned_from(paper_book(), [closed()], TODAY)
    assert after.calls.causes["crusted"].weight == pytest.approx((3.0 + 1.0) / 26.0, abs=5e-5)
    assert after.calls.causes["stale"].weight == pytest.approx(3.0 / 31.0, abs=5e-5)


def test_a_rare_cause_that_was_not_found_keeps_half_its_weight() -> None:
    """Seventy cases, of which three were to be expected, would make the desk forget a cause."""
    calls = paper_book().calls
    rare = {**calls.causes, "other": replace(calls.causes["other"], weight=0.04)}
    book = replace(BOOK, calls=replace(calls, causes=rare))
    after = learned_from(book, [closed()] * 74, TODAY)
    assert after.calls.causes["other"].weight == pytest.approx(3.0 / (75.0 + 74.0), abs=5e-5)


def test_a_common_cause_counts_for_no_fewer_than_ten_cases() -> None:
    """A weight of a half would count for six cases, less than a strength does."""
    calls = paper_book().calls
    common = {**calls.causes, "crusted": replace(calls.causes["crusted"], weight=0.5)}
    after = learned_from(replace(BOOK, calls=replace(calls, causes=common)), [closed()], TODAY)
    assert after.calls.causes["crusted"].weight == pytest.approx((5.0 + 1.0) / 11.0, abs=5e-5)


def test_what_was_said_of_a_danger_is_scored() -> None:
    """A wet font told of at the gate would not count for the leak it speaks of."""
    told = closed(Danger("wet-font", Said.YES), cause="leaks")
    asked = closed(Answer("wet", Said.YES), cause="leaks")
    silent = scored(paper_book(), [closed(cause="leaks")])
    found = scored(paper_book(), [told])
    assert found
    assert silent
    assert found == scored(paper_book(), [asked])
    assert found.log < silent.log


def test_a_danger_told_at_the_gate_is_not_learned_from() -> None:
    """Many dry lamps would teach the desk, by its own questions, that leaks do not wet the font."""
    dry = [closed(Danger("wet-font", Said.NO), cause="leaks")] * 50
    after = learned_from(paper_book(), dry, TODAY)
    assert after.calls.shows == paper_book().calls.shows
    assert after.calls.signs == paper_book().calls.signs


def test_answers_after_an_act_and_the_complaint_itself_tell_nothing() -> None:
    """The lamp as mended, or what every such caller complains of, would be learned as a link."""
    act = Act("clean-wick", Outcome.STILL)
    late = closed(act, Answer("uneven", Said.NO), Answer("dim", Said.YES))
    early = closed(Answer("dim", Said.YES))
    for case in (late, early):
        after = learned_from(paper_book(), [case] * 20, TODAY)
        assert after.calls.shows == paper_book().calls.shows


def test_a_danger_keeps_its_numbers() -> None:
    """Many dry lamps would teach the desk to ask after a wet font no more."""
    dry = [closed(Answer("wet", Said.NO), cause="leaks")] * 50
    after = learned_from(paper_book(), dry, TODAY)
    assert strength(after, "leaks", "wet") == 0.85
    assert after.calls.signs == paper_book().calls.signs


def test_unlisted_causes_are_never_learned_away() -> None:
    """After enough cases the book would hold itself complete."""
    one = replace(closed(), case=replace(closed().case, complaint="dim"), causes=("wick-crusted",))
    after = learned_from(BOOK, [one] * 600, TODAY)
    assert after.calls.causes["something-else"].weight == 0.03


def test_unconfirmed_cases_change_nothing() -> None:
    """What was merely talked about would be taken for what was wrong."""
    loose = [replace(one, confirmed=Confirmed.NOT, causes=()) for one in cases()]
    after = learned_from(BOOK, loose, TODAY)
    assert (after.calls, after.changes, after.before) == (BOOK.calls, (), None)


def test_order_does_not_matter() -> None:
    """Two desks with the same cases on file would propose different tables."""
    mixed = list(cases())[:40]
    random.Random(3).shuffle(mixed)
    one, other = learned_from(BOOK, cases()[:40], TODAY), learned_from(BOOK, mixed, TODAY)
    assert (one.calls, one.changes, one.after) == (other.calls, other.changes, other.after)


def test_what_only_the_telephone_confirmed_is_warned_of() -> None:
    """Tables learned from calls alone, blind to what only a bench finds, would pass for sound."""
    calls = [one for one in cases()[:60] if one.confirmed is Confirmed.TELEPHONE]
    assert learned_from(BOOK, calls, TODAY).one_sided
    assert not learnt().one_sided


def test_the_demo_cases_are_what_the_script_makes() -> None:
    """The file would no longer be what the truth beside it says it is."""
    drawn = made.drawn(BOOK, made.CASES, made.SEED + 1)
    assert [written_closed(one) for one in drawn] == FILE.read_text(encoding="utf-8").splitlines()


def test_learning_foretells_cases_it_never_saw_better() -> None:
    """Two hundred cases would make the book foretell causes no better, by folds or fresh cases."""
    before, after = learnt().before, learnt().after
    assert before
    assert after
    assert before.cases == after.cases
    assert after.log < before.log
    assert after.brier < before.brier
    fresh = made.drawn(BOOK, 80, 77)
    old, new = scored(BOOK, fresh), scored(replace(BOOK, calls=learnt().calls), fresh)
    true = scored(replace(BOOK, calls=made.truth(BOOK.calls)), fresh)
    assert old
    assert new
    assert true
    assert true.log < new.log < old.log


def test_links_move_toward_the_truth() -> None:
    """Links that cases bear on would move away from what the lamps truly do."""
    true = {(s.cause, s.sign): s.strength for s in made.truth(BOOK.calls).shows}
    moved = [one for one in learnt().changes if one.table == "shows"]
    goal = np.array([true[one.key.split()[0], one.key.split()[1]] for one in moved])
    old, new = (np.array([getattr(one, name) for one in moved]) for name in ("old", "new"))
    assert np.mean((new - goal) ** 2) < np.mean((old - goal) ** 2)


def test_large_changes_wait_for_a_person() -> None:
    """A number turned round by the cases would slip in among the small corrections."""

    def odds(chance: float) -> float:
        return math.log(chance / (1.0 - chance))

    assert any(one.large for one in learnt().changes)
    for one in learnt().changes:
        assert one.large == (abs(odds(one.new) - odds(one.old)) > LARGE)


def test_no_case_at_all_changes_nothing() -> None:
    """If this fails, the first day of a desk ends in a broken page."""
    learned = learned_from(demo().book, [], date(2026, 1, 1))
    assert learned.changes == ()
    assert set(learned.confirmed.values()) == {0}


def test_cases_that_may_have_taught_the_book_already_are_counted() -> None:
    """Learning once a month from all closed calls would count the old ones every month."""
    early, late = closed(), replace(closed(), closed=TODAY + timedelta(days=1))
    loose = closed(confirmed=Confirmed.NOT)
    book = replace(paper_book(), revisions=(Signature(TODAY, "A. Lead", "a year of calls"),))
    assert learned_from(paper_book(), [early, late, loose], TODAY).again == 0
    assert learned_from(book, [early, late, loose], TODAY + timedelta(days=1)).again == 1
