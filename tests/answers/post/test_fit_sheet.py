"""Fit sheets of the demo book: whole, truthful, and on one page for the calls of the README."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.reading_pdf import is_tagged, pages_of, words_of
from tests.support.round_of_wishes import round_of_wishes

from wickwright.answers import NotKnown, Routes, all_findings, route_flames, which_parts
from wickwright.answers.pictures.lamp_drawing import small_lamp_drawing
from wickwright.answers.post.fit_sheet import FitSheet, fit_sheet, plain_sheet
from wickwright.answers.post.printed_sheet import sheet_page
from wickwright.catalogue.revision import revision_of
from wickwright.paper.sheet import sheet_pdf
from wickwright.terms.finding import Severity
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickwright.fit.request import Situation
    from wickwright.fit.routes import Route

UNITS = Units("metric", "SKD")
DAY = date(2026, 3, 9)


def _sheet(now: Situation, route: Route) -> FitSheet:
    (flame,) = route_flames(demo(), now, [route]).after
    findings = all_findings(route, flame)
    return fit_sheet(demo(), now, route, flame, findings, UNITS, call="1042", handed_in=DAY)


def _asked(
    lamp: str, wish: str, at: float = 0.0, lost: Sequence[str] = ()
) -> tuple[Situation, Route]:
    answer = which_parts(demo(), lamp, wish, elevation=at, lost=lost)
    assert isinstance(answer, Routes | NotKnown)
    return answer.now, answer.routes[0]


CALLS = (
    ("WH-302", "renew-chimney", 1700.0, ("chimney",)),
    ("SA-201", "suit-place", 2400.0, ()),
    ("DU-406", "add-light-shade", 0.0, ()),
    ("BX-702", "to-oil", 0.0, ()),
    ("SA-205", "renew-font", 0.0, ()),
)


@pytest.mark.parametrize(("lamp", "wish", "at", "lost"), CALLS)
def test_the_sheet_of_a_call_could_be_posted(
    lamp: str, wish: str, at: float, lost: tuple[str, ...]
) -> None:
    """If this failed, the parcel would go out without what its parts are, or how to fit them."""
    now, route = _asked(lamp, wish, at, lost)
    sheet = _sheet(now, route)
    pdf = sheet_pdf(sheet_page(sheet, UNITS), small_lamp_drawing(demo(), now, route))
    words = words_of(pdf)
    assert (pages_of(pdf), is_tagged(pdf)) == (1, True)
    told = (
        *(f"{part.id} {part.name}" for part in (*route.buy, *route.aside)),
        *sheet.cautions,
        *sheet.lighting,
        *sheet.before,
        "call 1042",
        "date 2026-03-09",
        f"fit book {sheet.revision}",
    )
    assert [one for one in told if one not in words] == []


def test_every_lamp_has_a_sheet() -> None:
    """If this failed, some lamp of the book could not be helped by post."""
    asked = round_of_wishes()
    for now, route in asked[::3]:
        sheet = _sheet(now, route)
        plain = plain_sheet(sheet, UNITS)
        assert json.loads(json.dumps(plain, allow_nan=False)) == plain
        pdf = sheet_pdf(sheet_page(sheet, UNITS), small_lamp_drawing(demo(), now, route))
        assert pages_of(pdf) <= 2
        assert all(part.id in words_of(pdf) for part in route.buy)
    assert {now.request.lamp for now, _ in asked} == {*demo().book.lamps}


def test_what_is_grave_comes_first() -> None:
    """If this failed, a caller would read of the price of a wick before the danger."""
    for now, route in round_of_wishes()[:40]:
        found = [one.severity for one in _sheet(now, route).findings]
        assert found == sorted(found, reverse=True)
        assert all(one >= Severity.CAUTION for one in found)


def test_the_figures_are_those_of_the_answer() -> None:
    """If this failed, the sheet would promise another light than the desk read out."""
    now, route = _asked("WH-302", "renew-chimney", 1700.0)
    page = sheet_page(_sheet(now, route), UNITS)
    assert [(one.key, one.name, one.note) for one in page.figures] == [
        ("light", "about 300 lm; it may be half or double of that", ""),
        ("fuel", "59.3 g/h ± 7.8 g/h", ""),
        ("a full font lasts", "8.2 h ± 1.1 h", ""),
        ("height", "594.0 mm", ""),
        ("tips at", "9.3°", "at least 8.0°"),
    ]
    assert page.about == "A new one for the chimney, at 1,700 m"
    assert [one.words for one in page.warnings] == [
        (
            "At the height you live at, keep the wick below its usual mark. Turn down at the first "
            "dark spot on the glowing web, and have a carbon monoxide alarm in the room."
        )
    ]


def test_what_was_assumed_is_said() -> None:
    """If this failed, nobody could tell later on what the answer was built."""
    answer = which_parts(
        demo(), "SA-201", "complete", bare=True, have=["BA-2110", "FO-2110"], pressure=90000.0
    )
    assert isinstance(answer, Routes)
    assert _sheet(answer.now, answer.routes[0]).assumed == (
        (
            "There is nothing of the lamp but Sule foot, round (BA-2110), Sule font, brass, "
            "coarse collar (FO-2110)."
        ),
        "The air pressure there is 900 hPa, as told.",
        "Light and fuel: at the fullest clean flame, ± one standard uncertainty.",
    )


def test_another_book_has_another_revision() -> None:
    """If this failed, an answer could not be shown again as it was given."""
    book = demo().book
    part = book.parts["CH-3371"]
    other = replace(book, parts={**book.parts, part.id: replace(part, price=3101)})
    assert revision_of(book) == revision_of(replace(book))
    assert re.fullmatch("[0-9a-f]{12}", revision_of(book))
    assert revision_of(other) != revision_of(book)


def test_a_revision_that_is_known_is_not_worked_out_again() -> None:
    """If this failed, every sheet of a desk with a large book would wait for a second."""
    now, route = _asked("DU-401", "renew-wick")
    (flame,) = route_flames(demo(), now, [route]).after
    sheet = fit_sheet(demo(), now, route, flame, (), UNITS, revision="known")
    assert sheet.revision == "known"
    assert plain_sheet(sheet, UNITS)["handed_in"] is None
