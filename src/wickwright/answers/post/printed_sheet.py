"""The fit sheet in words, as it is printed."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Final

from wickwright.answers.post.caller_words import caller_words, what_it_is
from wickwright.answers.post.letter_parts import half_or_double, lamps_listed
from wickwright.answers.post.step_words import step_words
from wickwright.paper.records import Item, Said, SheetPage
from wickwright.terms.finding import Kind, Quantity, Severity
from wickwright.terms.units import say, say_spread

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.answers.post.fit_sheet import Figure, FitSheet
    from wickwright.catalogue.records import Part
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["sheet_page"]


def sheet_page(sheet: FitSheet, units: Units) -> SheetPage:
    """Put a fit sheet into words.

    Parameters
    ----------
    sheet : FitSheet
        The sheet.
    units : Units
        What to print in.

    Returns
    -------
    SheetPage
        For :func:`wickwright.paper.sheet.sheet_pdf`.
    """
    return SheetPage(
        sender=sheet.maker,
        heading=_heading(sheet),
        about=_about(sheet, units),
        references=tuple(_references(sheet)),
        warnings=(
            *(Said("Mind", words, grave=True) for words in sheet.doubts),
            *(_warning(one, units) for one in sheet.findings),
            *(Said("Mind", words) for words in sheet.care),
        ),
        fit=(
            *map(partial(_fitted, sheet.request.count), sheet.fit, sheet.why),
            *(Item(part.id, part.name, "comes fitted") for part in sheet.included),
        ),
        aside=tuple(Item(part.id, part.name) for part in sheet.aside),
        before=sheet.before,
        steps=tuple(step_words(step, sheet.unnamed) for step in sheet.steps),
        after=sheet.lighting,
        cautions=sheet.cautions,
        assumed=sheet.assumed,
        figures=tuple(_figure(one, units) for one in sheet.figures),
        drawing_says=_drawing_says(sheet),
        drawing_key=_drawing_key(sheet),
    )


def _heading(sheet: FitSheet) -> str:
    if sheet.named:
        return f"{sheet.lamp.name} ({sheet.lamp.id})"
    return f"For one of {len(sheet.lamps)} lamps" if len(sheet.lamps) > 1 else "For a likely lamp"


def _fitted(count: int, part: Part, why: str) -> Item:
    each = f"{count} x, one for each lamp" if count > 1 else ""
    return Item(part.id, part.name, "; ".join(filter(None, (each, what_it_is(part), why))))


def _about(sheet: FitSheet, units: Units) -> str:
    elevation = sheet.request.place.elevation
    where = f"at {say(Quantity(elevation, Kind.ELEVATION), units)}" if elevation else "at sea level"
    taken = ", which was taken for granted" if sheet.height_taken else ""
    told = f"{sheet.wanted}, {where}{taken}"
    if sheet.named:
        return told
    alike = "; all of them take this" if len(sheet.lamps) > 1 else ""
    return f"{told}. For: {lamps_listed(sheet.lamps)}{alike}."


def _references(sheet: FitSheet) -> Iterator[Item]:
    if sheet.call:
        yield Item("call", sheet.call)
    if sheet.handed_in:
        yield Item("date", sheet.handed_in.isoformat())
    if sheet.telephone:
        yield Item("telephone", sheet.telephone)
    yield Item("fit book", sheet.revision)


_TENS: Final = 10.0
_MARKS: Final[Mapping[Severity, str]] = {
    Severity.CAUTION: "Mind",
    Severity.UNKNOWN: "Not known",
    Severity.FAULT: "Fault",
    Severity.DANGER: "DANGER",
}


def _warning(finding: Finding, units: Units) -> Said:
    grave = finding.severity >= Severity.FAULT
    return Said(_MARKS[finding.severity], caller_words(finding, units), grave)


def _figure(one: Figure, units: Units) -> Item:
    value = say(one.value, units)
    if (
        one.spread is not None
        and one.value.kind is Kind.LIGHT
        and half_or_double(one.value.value, one.spread)
    ):
        rounded = replace(one.value, value=round(one.value.value / _TENS) * _TENS)
        value = f"about {say(rounded, units)}; it may be half or double of that"
    elif one.spread is not None:
        value = f"{value} {say_spread(one.value.value, one.spread, one.value.kind, units)}"
    least = Quantity(one.least, one.value.kind) if one.least is not None else None
    return Item(one.name, value, f"at least {say(least, units)}" if least else "")


def _drawing_says(sheet: FitSheet) -> str:
    new = [f"{part.kind} {part.id}" for part in (*sheet.fit, *sheet.included)]
    marked = f", with what is new marked: {', '.join(new)}" if new else ""
    return f"{sheet.lamp.name} to scale, in outline and in section{marked}."


def _drawing_key(sheet: FitSheet) -> str:
    says = ["To scale; left of the axis from outside, right of it cut open."]
    if sheet.fit:
        says.append("Yellow: new.")
    if any(part.kind != "tool" for part in sheet.aside):
        says.append("Hatched: put aside.")
    return " ".join(says)
