"""The page of a flame: what an adviser reads out about light, fuel, heat and the room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.flames.predict_burn import Burns, FlameNotKnown, OnABulb
from wickwright.answers.words.burn_words import (
    ROOM_TITLES,
    TITLES,
    graver_first,
    input_value,
    leading,
    setting_words,
    source_words,
    value_words,
)
from wickwright.answers.words.cautions import CAUTIONS
from wickwright.catalogue.records import Service
from wickwright.cli.calibration_page import calibration_lines
from wickwright.cli.layout import bullet, paragraph, table
from wickwright.cli.words import finding_lines, listed
from wickwright.fit.audit import called
from wickwright.terms.finding import Kind, Quantity, Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickwright.answers.flames.predict_burn import BurnAnswer
    from wickwright.answers.flames.room_air import RoomAnswer
    from wickwright.burn.error_bars import Driver, Estimate
    from wickwright.cli.burn import Asked, Told
    from wickwright.fit.compiled import Compiled
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["burn_page", "place_words"]

_ASSUMED = "burn-assumed"
_SAID = ("burner", "chimney", "mantle", "bulb")
_BARE_MARGIN = 1e-9


def burn_page(compiled: Compiled, asked: Asked, told: Told, units: Units, width: int) -> list[str]:
    """Lay out how a lamp burns.

    Parameters
    ----------
    compiled : Compiled
        The fit book.
    asked : Asked
        What was typed.
    told : Told
        What came of it.
    units : Units
        What to print in.
    width : int
        Of the page [signs].

    Returns
    -------
    list of str
        Lines.
    """
    lines = [*_head(compiled, asked, told.answer, units, width), ""]
    if told.calibration is not None:
        lines += [*calibration_lines(told.calibration, units, width), ""]
    lines += [*_tried_lines(told, width), *_finding_lines(told, units, width), ""]
    if isinstance(told.answer, Burns):
        lines += [*_figures(compiled, told.answer, told, units, width), ""]
    service = Service.ELECTRIC if isinstance(told.answer, OnABulb) else Service.OIL
    return [*lines, *_cautions(service, width)]


def place_words(answer: BurnAnswer, units: Units) -> str:
    """Say where a lamp stands.

    Parameters
    ----------
    answer : BurnAnswer
        How it burns there.
    units : Units
        What to print in.

    Returns
    -------
    str
        Such as ``'at 1,585 m (837 hPa)'``.
    """
    place = answer.place
    pressure = say(Quantity(place.pressure, Kind.PRESSURE), units)
    high = say(Quantity(place.elevation, Kind.ELEVATION), units)
    if place.measured is not None:
        return f"at {pressure} (standard air has it at {high})"
    if not place.elevation:
        return f"at sea level ({pressure})"
    return f"at {high} ({pressure})"


def _head(
    compiled: Compiled, asked: Asked, answer: BurnAnswer, units: Units, width: int
) -> list[str]:
    lamp = next(
        one for key, one in compiled.book.lamps.items() if key.lower() == asked.lamp.lower()
    )
    says = [f"{lamp.name} ({lamp.id}) {place_words(answer, units)}"]
    if isinstance(answer, Burns):
        says.append(setting_words(answer.prediction.setting))
    found = [answer.assembly.of_kind(kind) for kind in _SAID]
    parts = [called(it.part) for it in found if it]
    return [
        *paragraph("; ".join(says), width),
        *paragraph(f"with {listed(parts)}" if parts else "with nothing that burns", width, "  "),
    ]


def _tried_lines(told: Told, width: int) -> list[str]:
    """Say what the part that is tried does to light and fuel."""
    if told.before is None or not isinstance(told.answer, Burns):
        return []
    now, before = told.answer.prediction, told.before.prediction
    light, fuel = (_change(now[name], before[name]) for name in ("light", "fuel"))
    return [*paragraph(f"Tried: {light} light, {fuel} fuel.", width), ""]


def _change(now: Estimate, before: Estimate) -> str:
    share = now.value / before.value - 1.0
    return f"{abs(share) * 100:.0f} % {'more' if share >= 0 else 'less'}"


# -- findings ------------------------------------------------------------------------------------


def _finding_lines(told: Told, units: Units, width: int) -> list[str]:
    least = Severity.GOOD
    found = [one for one in graver_first(_found(told), least) if one.rule != _ASSUMED]
    lines: list[str] = []
    for finding in found:
        lines += finding_lines(finding, units, width)
    if isinstance(told.answer, FlameNotKnown) and told.answer.measure:
        columns = listed(told.answer.measure)
        lines += paragraph(f"Columns of the fit book to fill: {columns}.", width, "  ")
    return lines


def _found(told: Told) -> Iterator[Finding]:
    yield from told.answer.findings
    if told.room is not None:
        yield from told.room.findings
    if told.near is not None:
        yield from told.near.findings


# -- figures -------------------------------------------------------------------------------------


def _figures(compiled: Compiled, answer: Burns, told: Told, units: Units, width: int) -> list[str]:
    shown = dict(_shown(answer))
    groups: list[tuple[str, dict[str, Estimate]]] = [("The flame", shown)]
    if told.room is not None:
        named = {ROOM_TITLES[name]: one for name, one in told.room.estimates.items()}
        time = say(Quantity(told.room.plan.duration, Kind.TIME), units)
        groups.append((f"The room after {time}", named))
    if told.near is not None:
        keep = {
            "Above the chimney's top": told.near.keep_above,
            "Beside the mantle": told.near.keep_beside,
        }
        groups.append(("Wood must keep away by", keep))
    drivers = leading(one for _, group in groups for one in group.values())
    numbers = {driver.name: str(at) for at, driver in enumerate(drivers, 1)}
    lines = _table(groups, numbers, told, units, width)
    lines += ["", "Each figure leans most on these, one standard uncertainty each:"]
    lines += _inputs(compiled, answer, told, drivers, numbers, units, width)
    lines += [*_assumed(answer, told, units, width)]
    return lines


def _shown(answer: Burns) -> Iterator[tuple[str, Estimate]]:
    """Yield the figures worth printing by title."""
    for name, title in TITLES.items():
        estimate = answer.prediction[name]
        nothing = name == "margin" and abs(estimate.value) < _BARE_MARGIN
        unknown = name == "run_time" and not estimate.value
        if not (nothing or unknown):
            yield title, estimate


def _table(
    groups: list[tuple[str, dict[str, Estimate]]],
    numbers: Mapping[str, str],
    told: Told,
    units: Units,
    width: int,
) -> list[str]:
    rows: list[tuple[str, ...]] = []
    before = dict(_shown(told.before)) if told.before else {}
    for head, group in groups:
        rows.append((head, *[""] * (4 if before else 3)))
        for title, estimate in group.items():
            value, spread = value_words(estimate, units)
            leans = " ".join(numbers[driver.name] for driver in estimate.drivers)
            was = (_before(before.get(title), units),) if before else ()
            rows.append((f"  {title}", value, spread, *was, leans))
    rights = (1, 3) if before else (1,)
    return table(rows, width, indent="", rights=rights)


def _before(estimate: Estimate | None, units: Units) -> str:
    return f"(was {value_words(estimate, units)[0]})" if estimate else ""


def _inputs(
    compiled: Compiled,
    answer: Burns,
    told: Told,
    drivers: tuple[Driver, ...],
    numbers: Mapping[str, str],
    units: Units,
    width: int,
) -> list[str]:
    given = {one.name: one for one in answer.prediction.lamp.inputs}
    titles = compiled.book.sources
    more = told.room.inputs if told.room else {}
    rows = [
        (
            numbers[driver.name],
            driver.says,
            input_value(given[driver.name])
            if driver.name in given
            else " ".join(value_words(more[driver.name], units)),
            source_words(driver.source, titles),
        )
        for driver in drivers
    ]
    return table(rows, width, rights=(0,), wrapped=(1, 3))


def _assumed(answer: Burns, told: Told, units: Units, width: int) -> Iterator[str]:
    """Name what was assumed: figures the book lacks, and what nobody said of the room."""
    found = [one for one in answer.findings if one.rule == _ASSUMED]
    if not found and told.room is None:
        return
    yield ""
    yield "Assumed, because nobody measured or said it:"
    for finding in found:
        yield from bullet(f"{say(finding.facts['part'], units)}: {_names(finding, units)}", width)
    if told.room is not None:
        for says, value in _room_assumed(told.room, units):
            yield from bullet(f"{says}: {value}", width)


def _names(finding: Finding, units: Units) -> str:
    return say(finding.facts["names"], units)


def _room_assumed(room: RoomAnswer, units: Units) -> Iterator[tuple[str, str]]:
    for one in room.assumptions:
        yield one.says, say(one.value, units)


def _cautions(service: Service, width: int) -> Iterator[str]:
    yield "To be said every time:"
    for one in CAUTIONS[service]:
        yield from bullet(one, width)
