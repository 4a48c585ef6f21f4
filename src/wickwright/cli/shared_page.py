"""The page for several lamps it could be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.words.cautions import usual_cautions
from wickwright.cli.fit_page import fit_page, price_words, terms_of
from wickwright.cli.layout import paragraph, right, table
from wickwright.cli.words import bare_money, cautions, finding_lines, listed
from wickwright.fit.asked import asked_findings
from wickwright.fit.routes import Gave, Impossible, NotKnown, Routes
from wickwright.terms.finding import Kind, Quantity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.answers import Compiled
    from wickwright.fit.request import Request
    from wickwright.fit.routes import Answer
    from wickwright.fit.shared import Shared
    from wickwright.terms.units import Units

__all__ = ["shared_page"]


def shared_page(
    compiled: Compiled,
    shared: Shared,
    units: Units,
    width: int,
    *,
    in_full: bool = False,
    why: bool = False,
) -> list[str]:
    """Lay out what serves every lamp, then what each needs by itself."""
    names = [_lamp(compiled, answer) for answer in shared.answers]
    request = shared.answers[0].now.request
    many = f"{request.count} times " if request.count > 1 else ""
    asked = f"{many}{listed(names, 'or')}{_place(request, units)}: "
    asked += request.wish.title or request.wish.id
    lines = paragraph("; ".join([asked, *terms_of(compiled, request, units)]), width)
    lines += [*_doubts(compiled, shared, units, width), ""]
    lines += _purchases(shared, units, width)
    lines += ["", *_each(shared, width)]
    if in_full:
        for answer in shared.answers:
            lines += ["", "-" * width, *fit_page(compiled, answer, units, width, why=why)]
        return lines
    return [*lines, "", *cautions(usual_cautions(shared.answers[0].now), width)]


def _lamp(compiled: Compiled, answer: Answer) -> str:
    lamp = compiled.book.lamps[answer.now.request.lamp]
    return f"{lamp.name} ({lamp.id})"


def _place(request: Request, units: Units) -> str:
    at = Quantity(request.place.elevation, Kind.ELEVATION)
    return f" at {say(at, units)}" if at.value else ""


def _doubts(compiled: Compiled, shared: Shared, units: Units, width: int) -> Iterator[str]:
    """Yield what is to be said of the request, lamp by lamp."""
    found = (asked_findings(compiled.book, answer.now) for answer in shared.answers)
    told = dict.fromkeys(tuple(finding_lines(one, units, width)) for some in found for one in some)
    for lines in told:
        yield from lines


def _purchases(shared: Shared, units: Units, width: int) -> list[str]:
    if not shared.purchases:
        lines = paragraph(_nothing(shared), width)
    else:
        lines = []
        for at, one in enumerate(shared.purchases):
            head = "What serves all of them" if not at else "Or, with fewer parts"
            count = shared.answers[0].now.request.count
            lines.append(right(head, price_words(one.price, count, units), width))
            rows = [(part.id, part.name, bare_money(part.price)) for part in one.buy]
            lines += table(rows, width, indent="    ", rights=(2,), wrapped=(1,))
            if not one.buy:
                lines.append("    Nothing to buy.")
    if not shared.complete:
        lines.append("The search for more stopped early; there may be others.")
    return lines


def _nothing(shared: Shared) -> str:
    """Say that nothing serves all, and what can be done about it."""
    budget = shared.answers[0].now.request.budget
    if budget is not None and all(isinstance(answer, Routes) for answer in shared.answers):
        return (
            "Nothing within the budget serves all of them, though each has a way by itself: "
            "raise it, or find out which lamp it is."
        )
    return "Nothing serves all of them: find out which lamp it is."


_NO_ROUTES: dict[type, str] = {
    Impossible: "it cannot be done: ask for it alone",
    NotKnown: "it is not known: ask for it alone",
    Gave: "the search gave up",
}


def _each(shared: Shared, width: int) -> list[str]:
    """What each lamp would take by itself."""
    rows = [
        (answer.now.request.lamp, *_cheapest(answer), _alike(shared, at))
        for at, answer in enumerate(shared.answers)
    ]
    lines = ["The cheapest for each by itself ('--all' prints each in full):"]
    return lines + table(rows, width, rights=(1,), wrapped=(2, 3))


def _cheapest(answer: Answer) -> tuple[str, str]:
    if isinstance(answer, Routes):
        best = answer.routes[0]
        return bare_money(best.price), ", ".join(part.id for part in best.buy) or "nothing"
    return "", _NO_ROUTES[type(answer)]


def _alike(shared: Shared, at: int) -> str:
    """Name the lamps that are served by the same parts."""
    for group in shared.groups:
        if at in group and len(group) > 1:
            others = [shared.answers[one].now.request.lamp for one in group if one != at]
            return f"same as {listed(others)}"
    return ""
