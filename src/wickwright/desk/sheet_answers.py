"""The answer of a sheet as records a page is filled with: ways side by side, and what is unsure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickwright.answers.flames.predict_burn import Burns, OnABulb
from wickwright.answers.flames.route_flames import all_findings
from wickwright.answers.pictures.lamp_drawing import lamp_drawing
from wickwright.answers.plain.answers import plain_money
from wickwright.answers.said.numbers_said import numbers_in, part_words, parts_said
from wickwright.answers.said.words_said import broken_by_words
from wickwright.answers.sheet.call_sheet import Known
from wickwright.answers.sheet.given_up import wish_words
from wickwright.answers.words.cautions import usual_cautions
from wickwright.answers.words.reason_words import reasons_words
from wickwright.answers.words.reasons import reasons
from wickwright.answers.words.wording import (
    claim_words,
    give_up_words,
    kept_off,
    sentence,
    why_not_words,
)
from wickwright.catalogue.records import Status
from wickwright.fit.asked import asked_findings
from wickwright.fit.audit import called
from wickwright.fit.routes import Gave, Impossible, NotKnown
from wickwright.recognise.asking import Stop
from wickwright.terms.finding import Kind, Quantity, Range, Severity
from wickwright.terms.units import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickwright.answers.flames.route_flames import RouteFlame
    from wickwright.answers.sheet.call_record import Said as OnSheet
    from wickwright.answers.sheet.call_sheet import Parcel, Sheet
    from wickwright.answers.sheet.memory import Memory
    from wickwright.burn.error_bars import Estimate
    from wickwright.catalogue.records import Book, Part
    from wickwright.fit.routes import Route
    from wickwright.terms.finding import Finding
    from wickwright.terms.units import Units

__all__ = ["Bought", "ParcelNote", "Said", "Way", "likely_lines", "parcel_note", "where_it_stands"]

_WORDS: Final = (
    (0.9, "almost certainly"),
    (0.5, "probably"),
    (0.2, "quite possibly"),
    (0.05, "maybe"),
)
_LIKELY: Final = 0.02
_MOST: Final = 6


@dataclass(frozen=True, slots=True)
class Said:
    """A finding in words.

    Attributes
    ----------
    weight : str
        ``danger``, ``fault``, ``unknown``, ``mind``, ``note`` or ``good``.
    says, cure : str
        What was found, and what mends it.
    """

    weight: str
    says: str
    cure: str = ""


@dataclass(frozen=True, slots=True)
class Bought:
    """A part that is sent."""

    part: str
    name: str
    price: str
    had: str
    why: str


@dataclass(frozen=True, slots=True)
class Way:
    """One way from what is there to what is wanted.

    Attributes
    ----------
    number : int
        Counted from 1.
    value : str
        What is sent to choose it.
    chosen : bool
        Whether it is the chosen one.
    price : str
        Of one lamp, with its currency.
    buy : tuple of Bought
        What is sent.
    comes, keeps, aside : tuple of str
        What comes with it, what stays, what is put aside.
    light, fuel, air, stands, lasting : str
        What changes, in words.
    said : tuple of Said
        What remains to be said, dangers first.
    """

    number: int
    value: str
    chosen: bool
    price: str
    buy: tuple[Bought, ...]
    comes: tuple[str, ...]
    keeps: tuple[str, ...]
    aside: tuple[str, ...]
    light: str
    fuel: str
    air: str
    stands: str
    lasting: str
    said: tuple[Said, ...]


@dataclass(frozen=True, slots=True)
class ParcelNote:
    """What is sent, or why nothing can be.

    Attributes
    ----------
    title : str
        What it is for.
    verdict : str
        ``send``, ``measure``, ``cannot`` or ``gave up``.
    asked : tuple of Said
        What is to be said of the question itself.
    ways : tuple of Way
        Side by side, the cheapest first.
    why_not : tuple of str
        What cannot all be had.
    nearest : tuple of (str, str, str)
        What could be given up, its price, what is sent then.
    drawing : str
        SVG of the lamp of the chosen way, or as it is.
    cautions : tuple of str
        To be said with every part.
    """

    title: str
    verdict: str
    asked: tuple[Said, ...]
    ways: tuple[Way, ...]
    why_not: tuple[str, ...]
    nearest: tuple[tuple[str, str, str], ...]
    drawing: str
    cautions: tuple[str, ...]


_WEIGHTS: Final = {
    Severity.DANGER: "danger",
    Severity.FAULT: "fault",
    Severity.UNKNOWN: "unknown",
    Severity.CAUTION: "mind",
    Severity.NOTE: "note",
    Severity.GOOD: "good",
}
_ORDER: Final = tuple(_WEIGHTS)


def _said(findings: Iterable[Finding], units: Units) -> tuple[Said, ...]:
    ranked = sorted(findings, key=lambda one: _ORDER.index(one.severity))
    return tuple(_one_said(one, units) for one in ranked)


def _one_said(finding: Finding, units: Units) -> Said:
    words = sentence(finding, units)
    tells = finding.severity not in (Severity.GOOD, Severity.NOTE)
    return Said(_WEIGHTS[finding.severity], words.says, words.cure if tells else "")


def parcel_note(memory: Memory, parcel: Parcel) -> ParcelNote:
    """Put a parcel into words.

    Parameters
    ----------
    memory : Memory
        The fit book.
    parcel : Parcel
        Of a sheet.

    Returns
    -------
    ParcelNote
        For a page.
    """
    answer, units = parcel.answer, memory.units
    remedies = memory.compiled.book.calls.remedies
    title = remedies[parcel.remedy].says if parcel.remedy else wish_words(answer.now)
    return ParcelNote(
        title[:1].upper() + title[1:],
        _verdict(parcel),
        _said(asked_findings(memory.compiled.book, answer.now), units),
        tuple(_ways(memory, parcel)),
        tuple(_why_not(parcel, units)),
        tuple(_nearest(parcel, units)),
        lamp_drawing(memory.compiled, answer.now, parcel.route, units),
        usual_cautions(answer.now),
    )


def _verdict(parcel: Parcel) -> str:
    match parcel.answer:
        case Impossible():
            return "cannot"
        case Gave():
            return "gave up"
        case NotKnown():
            return "measure"
        case _:
            return "send"


# -- one way -------------------------------------------------------------------------------------


def _ways(memory: Memory, parcel: Parcel) -> Iterator[Way]:
    pairs = zip(parcel.routes, parcel.flames.after, strict=True)
    for at, (route, flame) in enumerate(pairs):
        if at < _MOST or at == parcel.chosen:
            yield _way(memory, parcel, at, route, flame)


def _way(memory: Memory, parcel: Parcel, at: int, route: Route, flame: RouteFlame) -> Way:
    units = memory.units
    return Way(
        at + 1,
        " ".join(part.id for part in route.buy),
        at == parcel.chosen,
        say(Quantity(route.price, Kind.MONEY), units),
        tuple(_bought(memory, parcel, route)),
        _named(route.included),
        tuple(_kept(route.keep)),
        _named(route.aside),
        _light(flame, parcel, units),
        _fuel(flame, units),
        _air(flame, units),
        _stands(route, units),
        _lasting(route),
        _said((one for one in all_findings(route, flame) if one.rule != "stands"), units),
    )


def _named(parts: Sequence[Part]) -> tuple[str, ...]:
    return tuple(called(part) for part in parts)


def _kept(parts: Sequence[Part]) -> Iterator[str]:
    for part in parts:
        gone = "" if part.status is Status.MADE else f", {part.status}"
        yield f"{called(part)}{gone}"


def _bought(memory: Memory, parcel: Parcel, route: Route) -> Iterator[Bought]:
    why = reasons(memory.compiled, parcel.answer.now, route)
    for part in route.buy:
        had = "" if part.status is Status.MADE else str(part.status)
        if part.status is Status.STOCKS:
            had = f"while stocks last, {part.stock or 0} left"
        price = plain_money(part.price) or "no price"
        words = reasons_words(why[part.id], memory.units)
        yield Bought(part.id, part.name, price, had, words)


def _give_or_take(one: Estimate, units: Units) -> str:
    value, spread = (say(Quantity(each, one.kind), units) for each in (one.value, one.spread))
    return f"{value} ± {spread}"


def _share(one: Estimate | None, more: str, less: str) -> str:
    if one is None:
        return ""
    if round(abs(one.value) * 100) == 0 and round(one.spread * 100) == 0:
        return "as now"
    word = more if one.value >= 0 else less
    return f"{abs(one.value) * 100:.0f} % {word}, give or take {one.spread * 100:.0f} %"


def _light(flame: RouteFlame, parcel: Parcel, units: Units) -> str:
    burns = flame.burns
    before = parcel.flames.before
    if isinstance(burns, OnABulb):
        return f"{_give_or_take(burns.light, units)} from its bulb" if burns.light else "not known"
    if not isinstance(burns, Burns):
        return "not known"
    now = _give_or_take(burns.prediction["light"], units)
    change = _share(flame.light, "more than now", "less than now")
    if not change and not isinstance(before, Burns):
        return now
    return f"{change} ({now})" if change else f"as now ({now})"


def _fuel(flame: RouteFlame, units: Units) -> str:
    if isinstance(flame.burns, OnABulb):
        return "none: the font stays empty"
    if not isinstance(flame.burns, Burns):
        return "not known"
    found = flame.burns.prediction
    change = _share(flame.fuel, "more", "less")
    hours = found["run_time"]
    lasts = f"; a full font lasts {_give_or_take(hours, units)}" if hours.value > 0.0 else ""
    return f"{_give_or_take(found['fuel'], units)}{f', {change}' if change else ''}{lasts}"


def _air(flame: RouteFlame, units: Units) -> str:
    margin = flame.at_mark
    if margin is None:
        return ""
    word = "to spare" if margin.value >= 0.0 else "too little"
    size = say(Quantity(abs(margin.value), margin.kind), units)
    return f"{size} {word} with the wick at its mark"


def _stands(route: Route, units: Units) -> str:
    for finding in route.findings:
        if finding.rule == "stands":
            leans, limit = finding.measured, finding.permitted
            angle = say(leans, units) if isinstance(leans, Quantity | Range) else "not known"
            least = say(Quantity(limit.low or 0.0, Kind.ANGLE), units) if limit else "?"
            return f"to {angle} before it tips (limit {least})"
    return ""


def _lasting(route: Route) -> str:
    if not route.dying:
        return "every part on it is still made"
    names = ", ".join(part.id for part in route.dying)
    return f"{len(route.dying)} on it no longer made or running out: {names}"


# -- why not -------------------------------------------------------------------------------------


def _why_not(parcel: Parcel, units: Units) -> Iterator[str]:
    answer = parcel.answer
    if isinstance(answer, Gave):
        yield (
            f"The search gave up after {answer.looked_at:,} steps and does not "
            "know. Ask for less at once."
        )
    if not isinstance(answer, Impossible):
        return
    if not answer.because:
        yield why_not_words(answer)
    wanted = kept_off(answer)
    said = (claim_words(one, answer.now, answer.blocked, wanted) for one in answer.because)
    yield from dict.fromkeys(said)
    for finding in answer.evidence:
        yield f"At best, with {finding.parts[-1]}: {sentence(finding, units).says}"


def _nearest(parcel: Parcel, units: Units) -> Iterator[tuple[str, str, str]]:
    answer = parcel.answer
    if not isinstance(answer, Impossible):
        return
    for out in answer.ways_out:
        if words := give_up_words(out.give_up, answer):
            price = "" if out.price is None else say(Quantity(out.price, Kind.MONEY), units)
            sent = [called(part) for part in out.buy if part not in out.elsewhere]
            yield f"give up {words}", price, ", ".join(sent) or "nothing to buy"


# -- where it stands -----------------------------------------------------------------------------


def likely_lines(memory: Memory, sheet: Sheet) -> tuple[tuple[str, str], ...]:
    """Return what is probably wrong, each with how sure that is, in words."""
    if sheet.case is None or sheet.gate is None or not sheet.gate.open:
        return ()
    causes = memory.compiled.book.calls.causes
    found = (
        (next((word for least, word in _WORDS if one.chance >= least), ""), causes[one.cause].says)
        for one in sheet.case.advice.causes[:3]
    )
    return tuple((word, says) for word, says in found if word)


def where_it_stands(memory: Memory, sheet: Sheet) -> tuple[str, ...]:
    """Say which lamps are left, what was not asked and why.

    Parameters
    ----------
    memory : Memory
        The fit book.
    sheet : Sheet
        As it stands.

    Returns
    -------
    tuple of str
        Sentences.
    """
    return (
        *_of_the_words(memory.compiled.book, sheet.said),
        *_of_the_lamp(sheet),
        *_of_the_cause(sheet),
    )


def _of_the_words(book: Book, said: OnSheet) -> Iterator[str]:
    """Say what was read out of the words, and how it is taken back."""
    if said.lamp in numbers_in(said.words, book.lamps):
        yield f"{said.lamp} stands in the words, so it is the lamp; empty its field if it is not."
    for part in parts_said(book, said.words):
        yield part_words(book, part)
    for kind in said.lost:
        if clause := broken_by_words(said.words, kind):
            yield f"'{clause}': so the {kind} counts as broken; empty that field if it is whole."


def _of_the_lamp(sheet: Sheet) -> Iterator[str]:
    which = sheet.which
    if which is None or not sheet.heard:
        return
    found = which.recognition
    if found.beliefs is None:
        yield "What was seen cannot all be so. Take back what clashes, or look again."
        return
    left = sheet.lamps_left
    parcels = [chance for _, chance in which.parcels() if chance >= _LIKELY]
    models = f"{left} model{'s' * (left != 1)} left"
    if which.wish:
        models += f", {_alike(len(parcels), settled=found.stop is Stop.SETTLED)}"
    yield f"{models}."
    if found.stop is Stop.SETTLED and which.wish and left > 1:
        yield "What to send is settled, so the model is not asked any further."
    elif found.stop is not None and found.stop is not Stop.SETTLED:
        yield f"Asking stops: {found.stop.value}."
    if sheet.known is Known.LIKELIEST and len(parcels) > 1:
        yield from _doubt(sheet)


def _alike(parcels: int, *, settled: bool) -> str:
    if parcels == 1:
        return "all take the same"
    return "nearly all take the same" if settled else f"{parcels} different parcels"


def _doubt(sheet: Sheet) -> Iterator[str]:
    which = sheet.which
    yield "Not settled: it could still be a lamp that takes something else. Do not pack it yet."
    if which is None or which.recognition.stop is None:
        return
    shared = which.serving_likely()
    if shared is not None and shared.purchases:
        parts = ", ".join(called(part) for part in shared.purchases[0].buy)
        yield f"One parcel serves every lamp it may be: {parts}."
    else:
        yield "Have the caller measure, or send a photograph, before this is packed."


def _of_the_cause(sheet: Sheet) -> Iterator[str]:
    if sheet.case is None:
        return
    for one in sheet.case.computed:
        yield f"Worked out, so not asked: {one.because}."
    skipped = {one.because for one in sheet.case.advice.skipped}
    told = {one.because for one in sheet.case.computed}
    for because in sorted(skipped - told):
        yield f"Not asked: {because}."
