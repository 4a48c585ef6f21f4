"""The page for several lamps it could be."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.cautions import usual_cautions
from wickwright.cli.fit_page import fit_page
from wickwright.cli.layout import paragraph, right, table
from wickwright.cli.words import bare_money, cautions, listed, money
from wickwright.fit.routes import Routes

if TYPE_CHECKING:
    from wickwright.answers import Compiled
    from wickwright.fit.routes import Answer
    from wickwright.fit.shared import Shared
    from wickwright.terms.units import Units

__all__ = ["shared_page"]


def shared_page(
    compiled: Compiled, shared: Shared, units: Units, width: int, *, in_full: bool = False
) -> list[str]:
    """Lay out what serves every lamp, then what each needs by itself."""
    names = [_lamp(compiled, answer) for answer in shared.answers]
    wish = shared.answers[0].now.request.wish
    lines = [*paragraph(f"{listed(names, 'or')}: {wish.title or wish.id}", width), ""]
    lines += _purchases(shared, units, width)
    lines += ["", *_each(shared, width)]
    if in_full:
        for answer in shared.answers:
            lines += ["", "-" * width, *fit_page(compiled, answer, units, width)]
        return lines
    return [*lines, "", *cautions(usual_cautions(shared.answers[0].now), width)]


def _lamp(compiled: Compiled, answer: Answer) -> str:
    lamp = compiled.book.lamps[answer.now.request.lamp]
    return f"{lamp.name} ({lamp.id})"


def _purchases(shared: Shared, units: Units, width: int) -> list[str]:
    if not shared.purchases:
        lines = paragraph("Nothing serves all of them: find out which lamp it is.", width)
    else:
        lines = []
        for at, one in enumerate(shared.purchases):
            head = "What serves all of them" if not at else "Or, with fewer parts"
            lines.append(right(head, money(one.price, units), width))
            rows = [(part.id, part.name, bare_money(part.price)) for part in one.buy]
            lines += table(rows, width, indent="    ", rights=(2,), wrapped=(1,))
            if not one.buy:
                lines.append("    Nothing to buy.")
    if not shared.complete:
        lines.append("The search for more stopped early; there may be others.")
    return lines


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
    return "", "it cannot be, or is not known: ask for it alone"


def _alike(shared: Shared, at: int) -> str:
    """Name the lamps that are served by the same parts."""
    for group in shared.groups:
        if at in group and len(group) > 1:
            others = [shared.answers[one].now.request.lamp for one in group if one != at]
            return f"same as {listed(others)}"
    return ""
