"""The fit book in pages: looked through, and each part and lamp as it is printed."""

from dataclasses import dataclass
from typing import Final

from fastapi import APIRouter
from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response

from wickwright.answers.book.marks import Told, marks_of_lamp, marks_of_part, seen
from wickwright.answers.book.records import part_record
from wickwright.answers.flames.predict_burn import Burns, how_it_burns
from wickwright.answers.pictures.burn_charts import elevation_svg, height_svg
from wickwright.answers.pictures.lamp_drawing import sold_drawing
from wickwright.answers.post.order_lines import availability
from wickwright.answers.words.wording import sentence
from wickwright.burn.checks import BurnError
from wickwright.catalogue.records import KINDS, Lamp, Part
from wickwright.desk.book_here import BookHere, book_here, one_of
from wickwright.desk.book_rows import BookRow, book_rows, price_of, years_of
from wickwright.desk.call_lists import CallRow, call_rows
from wickwright.desk.frame import render
from wickwright.desk.people_here import Here
from wickwright.desk.refusals import RefusedError
from wickwright.desk.state import state_of
from wickwright.fit.audit import audit
from wickwright.fit.place import Place

__all__ = ["BookPage", "LampPage", "PartPage", "PortRows", "router"]

router = APIRouter()
_MOST: Final = 200
"""Lamps and parts in one list [-]."""
_CALLS: Final = 50
"""Open calls in the list on the page of a part [-]."""
_CHARTS: Final = {"elevation": elevation_svg, "height": height_svg}


@dataclass(frozen=True, slots=True)
class Shelf:
    """A family of lamps or a kind of part, and how many there are."""

    key: str
    name: str
    count: int


@dataclass(frozen=True, slots=True)
class BookPage:
    """The fit book looked through.

    Attributes
    ----------
    title, revision : str
        What the book calls itself; its revision.
    query : str
        Keeps links in the revision.
    old : bool
        Whether an older revision than the one in force is shown.
    asked : str
        What was looked for.
    rows : tuple of BookRow
        What was found.
    more : bool
        Whether there is more than is shown.
    families, kinds : tuple of Shelf
        Where to look.
    """

    title: str
    revision: str
    query: str
    old: bool
    asked: str
    rows: tuple[BookRow, ...]
    more: bool
    families: tuple[Shelf, ...]
    kinds: tuple[Shelf, ...]


@router.get("/book")
def book(
    request: Request, visitor: Here, q: str = "", kind: str = "", family: str = ""
) -> Response:
    """Look through the fit book, by words, by a kind of part or by a family of lamps."""
    del visitor
    it = book_here(request)
    records = it.opened.book
    found: tuple[Lamp | Part, ...]
    if kind in KINDS:
        found = tuple(part for part in records.parts.values() if part.kind == kind)
    elif family in records.families:
        found = tuple(lamp for lamp in records.lamps.values() if lamp.family == family)
    else:
        found = it.opened.index.find(q[:200], _MOST + 1)
    page = BookPage(
        title=records.about.get("title", records.about.get("maker", "Fit book")),
        revision=it.opened.revision.id,
        query=it.query,
        old=bool(it.query),
        asked=kind or (records.families[family].name if family in records.families else q.strip()),
        rows=book_rows(found[:_MOST], it.units),
        more=len(found) > _MOST,
        families=_families(it),
        kinds=_kinds(it),
    )
    return render(request, "book.html", page)


def _families(it: BookHere) -> tuple[Shelf, ...]:
    lamps = [lamp.family for lamp in it.opened.book.lamps.values()]
    families = it.opened.book.families.values()
    return tuple(Shelf(one.id, one.name, lamps.count(one.id)) for one in families)


def _kinds(it: BookHere) -> tuple[Shelf, ...]:
    kinds = [part.kind for part in it.opened.book.parts.values()]
    return tuple(Shelf(kind, kind, kinds.count(kind)) for kind in KINDS if kind in kinds)


# -- parts ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class PortRows:
    """A joint of a part, and what fits it."""

    head: str
    sizes: str
    note: str
    carries: bool
    fits: tuple[BookRow, ...]


@dataclass(frozen=True, slots=True)
class PartPage:
    """A part as it is printed, and what it goes with.

    Attributes
    ----------
    id, name, kind, had, price : str
        Of the part.
    query, revision : str
        Of the book.
    figures : tuple of (str, str)
        Columns as printed.
    ports : tuple of PortRows
        What it fits, computed.
    replaced : tuple of str
        What replaced it, step by step.
    heir : tuple of BookRow
        What to send instead; none or one.
    includes, comes_in, sold_on : tuple of BookRow
        What comes with it, with what it comes, on which lamps it was sold.
    marks : tuple of (str, str)
        How to know it.
    calls : tuple of CallRow
        The oldest open calls in which it stands.
    """

    id: str
    name: str
    kind: str
    had: str
    price: str
    query: str
    revision: str
    figures: tuple[tuple[str, str], ...]
    ports: tuple[PortRows, ...]
    replaced: tuple[str, ...]
    heir: tuple[BookRow, ...]
    includes: tuple[BookRow, ...]
    comes_in: tuple[BookRow, ...]
    sold_on: tuple[BookRow, ...]
    marks: tuple[tuple[str, str], ...]
    calls: tuple[CallRow, ...]


@router.get("/book/parts/{part}")
def part(request: Request, visitor: Here, part: str) -> Response:
    """Show a part."""
    it, state = book_here(request), state_of(request)
    found = one_of({**it.opened.book.parts}, part, "part")
    lines = state.store.calls.with_part(found.id, _CALLS) if visitor.takes_calls else ()
    return render(request, "part.html", _part_page(it, found, call_rows(lines, state.clock())))


def _part_page(it: BookHere, part: Part, calls: tuple[CallRow, ...]) -> PartPage:
    record, units = part_record(it.opened.compiled, part, it.units), it.units
    heir = record.replacement.heir
    return PartPage(
        id=part.id,
        name=part.name,
        kind=part.kind,
        had=availability(part),
        price=price_of(part, units) or "no price",
        query=it.query,
        revision=it.opened.revision.id,
        figures=record.figures,
        ports=tuple(
            PortRows(
                one.head, one.sizes, one.port.note, bool(one.port.takes),
                book_rows(one.fits, units),
            )
            for one in record.ports
        ),
        replaced=tuple(
            f"{step.new.name} ({step.new.id})" + (f", with {step.via.name} ({step.via.id})"
            if step.via else "") for step in record.replacement.steps
        ),
        heir=book_rows((heir,) if heir and heir.id != part.id else (), units),
        includes=book_rows(record.includes, units),
        comes_in=book_rows(record.comes_in, units),
        sold_on=book_rows(record.sold_on, units),
        marks=marks_of_part(it.opened.book, part),
        calls=calls,
    )  # fmt: skip


# -- lamps ---------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Known:
    """A look by which a lamp is known."""

    question: str
    shows: str
    others: int


@dataclass(frozen=True, slots=True)
class LampPage:
    """A lamp as it was sold.

    Attributes
    ----------
    id, name, family, form, service, years, note, needs : str
        Of the lamp.
    query, revision : str
        Of the book.
    parts : tuple of BookRow
        It was sold with.
    known_by : tuple of Known
        How to know it, the most telling look first.
    said : tuple of str
        What is to be said of it as sold.
    drawing : Markup
        It, drawn to scale; blank where nothing can be drawn.
    charts : tuple of str
        Names of its charts; none where nothing burns in it.
    """

    id: str
    name: str
    family: str
    form: str
    service: str
    years: str
    note: str
    needs: str
    query: str
    revision: str
    parts: tuple[BookRow, ...]
    known_by: tuple[Known, ...]
    said: tuple[str, ...]
    drawing: Markup
    charts: tuple[str, ...]


@router.get("/book/lamps/{lamp}")
def lamp(request: Request, visitor: Here, lamp: str) -> Response:
    """Show a lamp."""
    del visitor
    it = book_here(request)
    found = one_of({**it.opened.book.lamps}, lamp, "lamp")
    return render(request, "lamp.html", _lamp_page(it, found))


def _lamp_page(it: BookHere, lamp: Lamp) -> LampPage:
    records, compiled = it.opened.book, it.opened.compiled
    findings = audit(compiled.sold(lamp.id), lamp, Place(), compiled.joiner)
    return LampPage(
        id=lamp.id,
        name=lamp.name,
        family=records.families[lamp.family].name,
        form=str(lamp.form),
        service=str(lamp.service),
        years=years_of(lamp),
        note=lamp.note,
        needs=", ".join(lamp.needs),
        query=it.query,
        revision=it.opened.revision.id,
        parts=book_rows((records.parts[one] for one in lamp.as_sold), it.units),
        known_by=tuple(_known(one) for one in marks_of_lamp(records, lamp)),
        said=tuple(sentence(finding, it.units).says for finding in findings),
        drawing=_drawing(it, lamp),
        charts=tuple(_CHARTS) if _burning(it, lamp) else (),
    )


def _known(told: Told) -> Known:
    return Known(told.look.question, seen(told.mark), told.others)


def _drawing(it: BookHere, lamp: Lamp) -> Markup:
    """Return the drawing of a lamp; our own SVG, in which every text is escaped."""
    try:
        drawn = sold_drawing(it.opened.compiled, lamp.id, it.units)
    except ValueError:
        return Markup()
    return Markup(drawn)  # noqa: S704 - as said


def _burning(it: BookHere, lamp: Lamp) -> Burns | None:
    """Return how a lamp as sold burns at sea level; None where it does not, or nobody knows."""
    compiled = it.opened.compiled
    try:
        found = how_it_burns(compiled, compiled.sold(lamp.id), Place())
    except BurnError:
        return None
    return found if isinstance(found, Burns) else None


@router.get("/book/lamps/{lamp}/charts/{chart}.svg")
def chart(request: Request, visitor: Here, lamp: str, chart: str) -> Response:
    """Return a chart of a lamp as sold."""
    del visitor
    it = book_here(request)
    found = one_of({**it.opened.book.lamps}, lamp, "lamp")
    burns = _burning(it, found) if chart in _CHARTS else None
    if burns is None:
        raise RefusedError(
            404,
            "There is no such chart",
            "Nothing burns in this lamp, or nobody has measured what the chart is computed from.",
            "Look at the page of the lamp.",
        )
    svg = _CHARTS[chart](it.opened.compiled, burns, it.units)
    return Response(svg, media_type="image/svg+xml")
