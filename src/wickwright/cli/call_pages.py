"""Pages of what a call is taken with: a look, sign, complaint, cause or remedy."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, assert_never

from wickwright.catalogue.call_records import (
    COMPUTATIONS,
    DANGERS,
    Cause,
    Complaint,
    Look,
    Remedy,
    Sign,
    Way,
)
from wickwright.catalogue.records import KINDS
from wickwright.catalogue.spelling import spelled
from wickwright.cli.layout import paragraph, table
from wickwright.cli.words import listed
from wickwright.terms.source import SOURCES

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickwright.answers.plain.answers import Plain
    from wickwright.catalogue.records import Book

__all__ = ["Called", "call_lines", "named_in_calls", "plain_call"]

Called = Look | Sign | Complaint | Cause | Remedy
"""What a call is taken with."""

_OF_HUNDRED = "of 100"


def named_in_calls(book: Book, name: str) -> dict[str, Called]:
    """Return what has this name, capitals disregarded, by what it is: a cause, a sign."""
    calls = book.calls
    tables: dict[str, dict[str, Called]] = {
        "cause": {**calls.causes},
        "complaint": {**calls.complaints},
        "sign": {**calls.signs},
        "remedy": {**calls.remedies},
        "look": {**calls.looks},
    }
    found = {}
    for what, records in tables.items():
        if key := spelled(name, records):
            found[what] = records[key]
    return found


def call_lines(book: Book, found: dict[str, Called], width: int) -> list[str]:
    """Lay out each of the records of one name."""
    lines: list[str] = []
    for record in found.values():
        lines += [*([""] if lines else []), *_page(book, record, width)]
    return lines


def _page(book: Book, record: Called, width: int) -> list[str]:
    match record:
        case Cause():
            return _cause(book, record, width)
        case Complaint():
            return _complaint(book, record, width)
        case Sign():
            return _sign(book, record, width)
        case Remedy():
            return _remedy(book, record, width)
        case Look():
            return _look(book, record, width)
        case _:
            assert_never(record)


# -- phrases -------------------------------------------------------------------------------------


def _head(
    what: str, says: str, key: str, facts: Sequence[tuple[str, str]], width: int
) -> list[str]:
    """Return the heading of a page and its facts, the blank ones left out."""
    lines = paragraph(f"{what} {key}: {says}", width)
    return lines + table([fact for fact in facts if fact[1]], width, wrapped=(1,))


def _hundredths(share: float) -> str:
    return f"{100 * share:.3g}"


def _source(book: Book, key: str) -> str:
    """Return the title of a source and how far it was followed."""
    if key in SOURCES:
        source = SOURCES[key]
        return f"{source.title} [{key}]: {source.seen.value}"
    return f"{book.sources.get(key, '')} [{key}]"


def _under(title: str, rows: Sequence[Sequence[str]], width: int, wrapped: int) -> list[str]:
    """Return a table below its title; nothing when it has no rows."""
    if not rows:
        return []
    return ["", title, *table(rows, width, rights=(0,), wrapped=(wrapped,))]


def _lamps(cause: Cause) -> str:
    """Say which lamps a cause can happen to."""
    parts = [f"with a {listed(cause.needs)}"] if cause.needs else []
    families = [f"of the family {listed(cause.families, 'or')}"] if cause.families else []
    return ", ".join(parts + families) or "all"


# -- pages ---------------------------------------------------------------------------------------


def _cause(book: Book, cause: Cause, width: int) -> list[str]:
    calls = book.calls
    facts = (
        ("why", cause.why),
        ("weight", f"{_hundredths(cause.weight)} of a hundred lamps that callers complain of"),
        ("lamps", _lamps(cause)),
        ("worked out", COMPUTATIONS.get(cause.computed, "")),
        ("source", _source(book, cause.source)),
    )
    shows = sorted((s for s in calls.shows if s.cause == cause.id), key=lambda s: -s.strength)
    signs = [(_hundredths(s.strength), s.sign, calls.signs[s.sign].says, s.source) for s in shows]
    cures = sorted((c for c in calls.cures if c.cause == cause.id), key=lambda c: -c.sure)
    acts = [(_hundredths(c.sure), c.remedy, calls.remedies[c.remedy].says) for c in cures]
    lines = _head("cause", cause.says, cause.id, facts, width)
    lines += _under(f"Shows itself, {_OF_HUNDRED} lamps with this cause alone", signs, width, 2)
    return lines + _under(f"Cured by, {_OF_HUNDRED} tries", acts, width, 2)


def _complaint(book: Book, complaint: Complaint, width: int) -> list[str]:
    facts = (
        ("sign", f"{complaint.sign}: {book.calls.signs[complaint.sign].says}"),
        ("also said", "; ".join(complaint.words)),
    )
    lines = _head("complaint", complaint.says, complaint.id, facts, width)
    if complaint.sign == complaint.id:
        return lines  # the page of the sign follows, and has them
    return lines + _causes_of(book, complaint.sign, width)


def _causes_of(book: Book, sign: str, width: int) -> list[str]:
    """Lay out the causes of a sign, those first that explain most lamps that show it."""
    causes = book.calls.causes
    shows = [show for show in book.calls.shows if show.sign == sign]
    shows.sort(key=lambda show: -show.strength * causes[show.cause].weight)
    rows = [(_hundredths(s.strength), s.cause, causes[s.cause].says, s.source) for s in shows]
    return _under(
        f"Shown by, {_OF_HUNDRED} lamps with the cause alone; the likeliest first", rows, width, 2
    )


def _sign(book: Book, sign: Sign, width: int) -> list[str]:
    knowing = f"{_hundredths(sign.yes_right)} of a hundred with it say yes, "
    knowing += f"{_hundredths(sign.no_right)} of a hundred without it say no; "
    knowing += f"{_hundredths(sign.unsure)} of a hundred do not know"
    facts = (
        ("ask", sign.question),
        ("why", sign.why),
        ("DANGER", f"{DANGERS[sign.danger]}: a yes stops the call" if sign.danger else ""),
        ("how", f"{sign.way}, {sign.minutes:g} min, {_state(sign.state)}"),
        ("callers", knowing),
        ("anyway", f"{_hundredths(sign.anyway)} of a hundred lamps without any of its causes"),
        ("source", _source(book, sign.source)),
    )
    return _head("sign", sign.says, sign.id, facts, width) + _causes_of(book, sign.id, width)


def _state(state: str) -> str:
    return {"any": "lamp lit or out", "cold": "lamp out and cold", "lit": "lamp lit"}[state]


def _remedy(book: Book, remedy: Remedy, width: int) -> list[str]:
    extra = f", and {remedy.extra:g} min for its risk" if remedy.extra else ""
    wish = book.wishes.get(remedy.wish)
    facts = (
        ("mind", remedy.caution),
        ("takes", f"{remedy.minutes:g} min, {_state(remedy.state)}{extra}"),
        ("parts", f"by the wish {wish.id}: {wish.title}" if wish else ""),
        ("source", _source(book, remedy.source)),
    )
    cures = sorted((c for c in book.calls.cures if c.remedy == remedy.id), key=lambda c: -c.sure)
    rows = [(_hundredths(c.sure), c.cause, book.calls.causes[c.cause].says) for c in cures]
    lines = _head("remedy", remedy.says, remedy.id, facts, width)
    return lines + _under(f"Cures, {_OF_HUNDRED} tries", rows, width, 2)


def _look(book: Book, look: Look, width: int) -> list[str]:
    measured = look.way is Way.MEASURE
    right = f"{_hundredths(look.right)} of a hundred who know say it rightly"
    knowing = f"standard error {1000 * look.error:g} mm" if measured else right
    facts = (
        ("at", f"{look.kind}: {KINDS[look.kind]}"),
        ("how", f"{look.way}, {look.minutes:g} min, {_state('cold')}"),
        ("callers", f"{knowing}; {_hundredths(look.unsure)} of a hundred do not know"),
        ("note", look.note),
    )
    lines = _head("look", look.question, look.id, facts, width)
    return lines + _under("Shows, on so many parts", [*_values(book, look)], width, 2)


def _values(book: Book, look: Look) -> Iterator[tuple[str, str, str]]:
    """Yield each value of a look: on how many parts, and on which."""
    parts: dict[str, list[str]] = {}
    for mark in book.calls.marks:
        if mark.look == look.id:
            parts.setdefault(mark.value, []).append(mark.part)
    for value, held in sorted(parts.items(), key=lambda one: -len(one[1])):
        yield f"{len(held)}", value, " ".join(held)


# -- JSON ----------------------------------------------------------------------------------------


def plain_call(book: Book, found: dict[str, Called]) -> dict[str, Plain]:
    """Return the records of one name for JSON, by what they are; shares stand as they are."""
    return {what: {**_plain(record), **_linked(book, record)} for what, record in found.items()}


def _plain(record: Called) -> dict[str, Plain]:
    cells = {name: cell for name, cell in asdict(record).items() if name != "printed"}
    if isinstance(record, Look):
        cells["error_m"] = cells.pop("error")
    return {name: list(cell) if isinstance(cell, tuple) else cell for name, cell in cells.items()}


def _linked(book: Book, record: Called) -> dict[str, Plain]:
    """Return the rows of the other tables that name the record."""
    calls, key = book.calls, record.id
    match record:
        case Cause():
            shows = [s for s in calls.shows if s.cause == key]
            cures = [c for c in calls.cures if c.cause == key]
            return {
                "shows": [{"sign": s.sign, "strength": s.strength} for s in shows],
                "cures": [{"remedy": c.remedy, "sure": c.sure} for c in cures],
            }
        case Sign() | Complaint():
            sign = record.sign if isinstance(record, Complaint) else key
            shows = [s for s in calls.shows if s.sign == sign]
            return {"causes": [{"cause": s.cause, "strength": s.strength} for s in shows]}
        case Remedy():
            cures = [c for c in calls.cures if c.remedy == key]
            return {"cures": [{"cause": c.cause, "sure": c.sure} for c in cures]}
        case Look():
            marks = [mark for mark in calls.marks if mark.look == key]
            return {"marks": [{"part": mark.part, "value": mark.value} for mark in marks]}
        case _:
            assert_never(record)
