"""The page of an answer: what an adviser reads out to a caller."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickwright.answers.flames.light_gained import Against, light_gained
from wickwright.answers.flames.route_flames import all_findings, route_flames
from wickwright.answers.words.cautions import usual_cautions
from wickwright.answers.words.reason_words import reasons_words
from wickwright.answers.words.reasons import reasons
from wickwright.answers.words.wording import light_words
from wickwright.cli.flame_lines import flame_lines
from wickwright.cli.layout import WIDE, paragraph, right, table
from wickwright.cli.unmet_page import gave_up_lines, impossible_lines, measurement_lines
from wickwright.cli.words import availability, bare_money, cautions, finding_lines, listed, money
from wickwright.fit.asked import asked_findings
from wickwright.fit.audit import called
from wickwright.fit.routes import Gave, Impossible, NotKnown, Routes
from wickwright.terms.finding import Kind, Quantity, Range, Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.flames.light_gained import LightGained
    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.catalogue.records import Book, Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Request, Situation
    from wickwright.fit.routes import Answer, Route
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["fit_page", "other_lines", "price_words", "situation_lines", "terms_of"]


def fit_page(
    compiled: Compiled,
    answer: Answer,
    units: Units,
    width: int,
    *,
    in_full: bool = False,
    why: bool = False,
    has_all: bool = False,
) -> list[str]:
    """Lay out an answer.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    answer : Answer
        What came of the request.
    units : Units
        What to print in.
    width : int
        Of the page [signs].
    in_full : bool
        Whether every route is laid out whole, not only the best.
    why : bool
        Whether to name the numbers that the figures of a flame lean on most.
    has_all : bool
        Whether the command has the option ``--all``, so that it can be named.

    Returns
    -------
    list of str
        Lines.
    """
    lines = [*situation_lines(compiled, answer.now, units, width), ""]
    match answer:
        case Impossible():
            return lines + impossible_lines(answer, units, width)
        case Gave():
            return lines + gave_up_lines(answer, width)
        case NotKnown():
            more = measurement_lines(answer, units, width, in_full=in_full, has_all=has_all)
            lines += [*more, ""]
    lines += _routes_lines(
        compiled, answer, units, width, in_full=in_full, why=why, has_all=has_all
    )
    return [*lines, "", *cautions(usual_cautions(answer.now), width)]


def situation_lines(compiled: Compiled, now: Situation, units: Units, width: int) -> list[str]:
    """Say in one sentence what is asked: lamp, place, wish, and what is not as sold."""
    request = now.request
    lamp = compiled.book.lamps[request.lamp]
    place = request.place.elevation
    at = f" at {say(Quantity(place, Kind.ELEVATION), units)}" if place else " at sea level"
    many = f"{request.count} times " if request.count > 1 else ""
    says = [f"{many}{lamp.name} ({lamp.id}){at}: {request.wish.title or request.wish.id}"]
    lines = paragraph("; ".join([*says, *terms_of(compiled, request, units)]), width)
    for finding in asked_findings(compiled.book, now):
        lines += finding_lines(finding, units, width)
    return lines


def terms_of(compiled: Compiled, request: Request, units: Units) -> Iterator[str]:
    """Yield in clauses what is not as sold, and what the money must do."""
    if request.bare:
        yield "nothing there but what is named"
    if request.have:
        parts = [called(compiled.book.parts[one]) for one in request.have]
        yield f"with {listed(parts)} on it"
    if request.lost:
        yield f"lost: {listed(request.lost)}"
    if request.budget is not None:
        yield f"for at most {money(request.budget, units)} a lamp"


def _routes_lines(
    compiled: Compiled,
    answer: Routes | NotKnown,
    units: Units,
    width: int,
    *,
    in_full: bool,
    why: bool,
    has_all: bool,
) -> list[str]:
    ways, now = answer.routes, answer.now
    heads = _heads(answer)
    shown = ways if in_full else ways[:1]
    flames = route_flames(compiled, now, shown)
    lines: list[str] = []
    for head, route, flame in zip(heads, shown, flames.after, strict=False):
        total = price_words(route.price, now.request.count, units)
        lines += [*([""] if lines else []), right(head, total, width)]
        lines += _parts_lines(compiled, now, route, units, width)
        lines += flame_lines(flame, flames.before, units, width, why=why)
        said = [*_remains(compiled.book, now, route, flame, units, width)]
        lines += ["  REMAINS TO BE SAID", *said] if said else []
    if len(shown) < len(ways):
        gained = [light_gained(compiled.book, now, way) for way in ways]
        lines += ["", *other_lines(ways, gained, width, has_all=has_all)]
    return lines


def price_words(price: int, count: int, units: Units) -> str:
    """Return the price of one lamp, and of all where there are several."""
    if count == 1:
        return money(price, units)
    return f"{money(price, units)} a lamp, {bare_money(price * count)} in all"


def _heads(answer: Routes | NotKnown) -> Iterator[str]:
    """Name the routes one after the other."""
    count = len(answer.routes)
    if isinstance(answer, Routes):
        yield "What to send" if count == 1 else f"What to send (the cheapest of {count} ways)"
    else:
        unknown = (one for one in answer.routes[0].findings if one.severity is Severity.UNKNOWN)
        joints = any(one.rule.startswith("joint-") for one in unknown)
        yield f"What would do if {'those fit' if joints else 'that is so'}"
    for at in range(2, count + 1):
        yield f"Way {at} of {count}"


# -- one route -----------------------------------------------------------------------------------


def _parts_lines(
    compiled: Compiled, now: Situation, route: Route, units: Units, width: int
) -> list[str]:
    """Lay out what is bought, included, kept and put aside."""
    lines: list[str] = []
    if route.buy:
        lines += ["  BUY", *_buy_lines(compiled, now, route, units, width)]
    else:
        lines += paragraph("Nothing to buy: what is there does it.", width, "  ")
    lines += _named("COMES WITH IT", route.included, width)
    lines += _named("KEEP", route.keep, width)
    return lines + _named("PUT ASIDE", route.aside, width)


def _buy_lines(
    compiled: Compiled, now: Situation, route: Route, units: Units, width: int
) -> list[str]:
    why = reasons(compiled, now, route)
    rows = [
        (part.id, part.name, bare_money(part.price), reasons_words(why[part.id], units))
        for part in route.buy
    ]
    if width >= WIDE:
        return table(rows, width, indent="    ", rights=(2,), wrapped=(1, 3))
    return [*_stacked(rows, width)]


def _stacked(rows: Sequence[tuple[str, str, str, str]], width: int) -> Iterator[str]:
    """Part and price on one line, the reason below."""
    numbers = max(len(row[0]) for row in rows)
    indent = " " * (numbers + 6)
    for number, name, price, why in rows:
        first, *more = paragraph(name, width - len(indent) - len(price) - 2)
        yield right(f"    {number:<{numbers}}  {first}", price, width)
        for line in more:
            yield f"{indent}{line}"
        yield from paragraph(f"{why}", width, f"{indent}- ", f"{indent}  ")


def _named(title: str, parts: Sequence[Part], width: int) -> list[str]:
    """Name parts under a title."""
    if not parts:
        return []
    rows = [(part.id, part.name, availability(part)) for part in parts]
    return [f"  {title}", *table(rows, width, indent="    ", wrapped=(1, 2))]


def _remains(
    book: Book, now: Situation, route: Route, flame: RouteFlame, units: Units, width: int
) -> Iterator[str]:
    """Yield what is to be said of the finished lamp; what is not known stands above."""
    for finding in all_findings(route, flame):
        if finding.rule == "stands":
            yield from paragraph(_stands(finding, units), width, "  - ", "    ")
        elif finding.severity not in (Severity.GOOD, Severity.UNKNOWN):
            yield from finding_lines(finding, units, width)
    gained = light_gained(book, now, route)
    if flame.light is None and gained.points:
        words = light_words(gained.points)
        yield f"  - {words[:1].upper()}{words[1:]} than {_AGAINST[gained.against]}."


_AGAINST = {Against.BEFORE: "before", Against.AS_SOLD: "this model gave as it was sold"}


def _stands(finding: Finding, units: Units) -> str:
    """Say how far the lamp may lean."""
    limit = finding.permitted.low if finding.permitted else None
    least = say(Quantity(limit or 0.0, Kind.ANGLE), units)
    leans = finding.measured
    angle = say(leans, units) if isinstance(leans, Quantity | Range) else "?"
    return f"Stands to {angle} (limit {least}; worst with the font {finding.facts['fill']})."


# -- the others ----------------------------------------------------------------------------------


def other_lines(
    ways: Sequence[Route], gained: Sequence[LightGained], width: int, *, has_all: bool
) -> list[str]:
    """Lay out all routes but the first by what differs; light gained by route."""
    best = {part.id for part in ways[0].buy}
    head = ("", "price", "parts", "going", "light", "buy")
    rows = [head]
    for at, (way, light) in enumerate(zip(ways[1:], gained[1:], strict=True), start=2):
        rows.append(
            (
                str(at),
                bare_money(way.price),
                str(len(way.buy)),
                str(len(way.dying)),
                _light(light),
                _bought(way, best),
            )
        )
    says = (
        "Other ways, each better in something (fewer parts, or fewer on the lamp that are "
        "'going': no longer made or sold while stocks last)"
    )
    if has_all:
        says += "; '--all' prints them in full"
    if gained[0].against is Against.AS_SOLD:
        says += "; light is against the model as it was sold"
    says += ":"
    return paragraph(says, width) + table(rows, width, rights=(0, 1, 2, 3, 4), wrapped=(5,))


def _light(gained: LightGained) -> str:
    """Put light gained into a cell of a column."""
    if gained.points:
        return f"{math.expm1(gained.points / 100) * 100:+.0f} %"
    return "as now" if gained.against is Against.BEFORE else "as sold"


def _bought(way: Route, best: set[str]) -> str:
    """Name what is bought; what the first route does not buy by its name too."""
    same = [part.id for part in way.buy if part.id in best]
    new = [f"{part.id} {part.name}" for part in way.buy if part.id not in best]
    return "; ".join([*([", ".join(same)] if same else []), *new]) or "nothing"
