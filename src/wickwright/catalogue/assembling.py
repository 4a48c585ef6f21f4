"""Sheets without a fault become the records of a book."""

from __future__ import annotations

import math
from datetime import date
from typing import TYPE_CHECKING

from wickwright.catalogue.call_rows import call_book
from wickwright.catalogue.measures import parse_measure, parse_spread
from wickwright.catalogue.print_cells import print_length
from wickwright.catalogue.records import (
    Ask,
    Book,
    Family,
    Footing,
    Form,
    Fuel,
    Lamp,
    Measure,
    Need,
    Part,
    Port,
    Service,
    Side,
    Signature,
    Status,
    Support,
    Wish,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from decimal import Decimal

    from wickwright.catalogue.sheets import Sheet, Sheets
    from wickwright.terms.dimension import Dimension

__all__ = ["PART_LENGTHS", "assemble"]

PART_LENGTHS = ("height", "centre", "least_chimney", "radius", "fuel_floor", "fuel_depth")
"""Columns of a part that hold a length, in the order of the table."""

_GRAM, _MILLILITRE = -3, -6  # powers of ten: g in kg, ml in m3


def _scaled(value: Decimal | None, power: int) -> float | None:
    return None if value is None else float(value.scaleb(power))


def _metres(size: Dimension | None) -> float | None:
    return None if size is None else size.nominal


def _lengths(sheet: Sheet, name: str) -> list[float | None]:
    """Return a column of lengths or of levels [m]."""
    if name in sheet.levels:
        return sheet.levels[name]
    return [_metres(size) for size in sheet.sizes[name]]


def _printed(sheet: Sheet, names: tuple[str, ...]) -> list[dict[str, str]]:
    """Return for each row the lengths that metres alone would not print again as they were."""
    printed: list[dict[str, str]] = [{} for _ in sheet.rows]
    for name in names:
        texts, values = sheet.texts[name], _lengths(sheet, name)
        odd = {
            text
            for text, metres in set(zip(texts, values, strict=True))
            if print_length(metres) != text
        }
        if odd:
            for at, text in enumerate(texts):
                if text in odd:
                    printed[at][name] = text
    return printed


def _support(sheet: Sheet, at: int) -> Support | None:
    footing = sheet.texts["support"][at]
    if not footing:
        return None
    radius, feet = _metres(sheet.sizes["radius"][at]), sheet.wholes["feet"][at]
    return Support(Footing(footing), radius or 0.0, feet or 0)


def _fuel(sheet: Sheet, at: int) -> Fuel | None:
    volume = _scaled(sheet.numbers["fuel_volume"][at], _MILLILITRE)
    floor, depth = sheet.levels["fuel_floor"][at], _metres(sheet.sizes["fuel_depth"][at])
    if volume is None or floor is None or depth is None:
        return None
    return Fuel(volume, floor, depth)


def _ports(sheet: Sheet) -> dict[str, tuple[Port, ...]]:
    """Return the ports of each part, in the order of the table."""
    texts, printed = sheet.texts, _printed(sheet, ("height",))
    sizes = [(name, sheet.sizes[name]) for name in ("diameter", "capture", "pitch", "reach")]
    words = [(name, texts[name]) for name in ("form", "hand", "cap")]
    lugs, limits = sheet.wholes["lugs"], sheet.numbers["limit"]
    angles = sheet.numbers["angle"]
    sides, needs = {side.value: side for side in Side}, {need.value: need for need in Need}
    ports: dict[str, list[Port]] = {}
    for at, part in enumerate(texts["part"]):
        numbers: dict[str, float] = {}
        if (lug := lugs[at]) is not None:
            numbers["lugs"] = float(lug)
        if (angle := angles[at]) is not None:
            numbers["angle"] = math.radians(float(angle))
        if (limit := limits[at]) is not None:
            numbers["limit"] = float(limit)
        port = Port(
            name=texts["port"][at],
            side=sides[texts["side"][at]],
            joint=texts["joint"][at],
            takes=sheet.lists["takes"][at],
            need=needs.get(texts["need"][at], Need.OPTIONAL),
            height=sheet.levels["height"][at] or 0.0,
            label=texts["label"][at],
            sizes={name: size for name, column in sizes if (size := column[at]) is not None},
            words={name: word for name, column in words if (word := column[at])},
            numbers=numbers,
            note=texts["note"][at],
            printed=printed[at],
        )
        ports.setdefault(part, []).append(port)
    return {part: tuple(held) for part, held in ports.items()}


def _included(sheet: Sheet) -> dict[str, tuple[str, ...]]:
    included: dict[str, list[str]] = {}
    for part, other in zip(sheet.texts["part"], sheet.texts["includes"], strict=True):
        included.setdefault(part, []).append(other)
    return {part: tuple(others) for part, others in included.items()}


def _flames(sheet: Sheet) -> dict[str, dict[str, Measure]]:
    """Return how each part burns, by property."""
    columns = (sheet.texts[c] for c in ("part", "property", "value", "spread", "source", "note"))
    flames: dict[str, dict[str, Measure]] = {}
    for part, name, value, spread, source, note in zip(*columns, strict=True):
        read = parse_measure(name, value)
        measure = Measure(read, parse_spread(name, spread, read), source, note, (value, spread))
        flames.setdefault(part, {})[name] = measure
    return flames


def _part(
    sheet: Sheet,
    at: int,
    ports: tuple[Port, ...],
    includes: tuple[str, ...],
    flame: dict[str, Measure],
    printed: dict[str, str],
) -> Part:
    texts, wholes, numbers = sheet.texts, sheet.wholes, sheet.numbers
    service = texts["service"][at]
    return Part(
        id=texts["part"][at],
        name=texts["name"][at],
        kind=texts["kind"][at],
        first=wholes["from"][at],
        last=wholes["to"][at],
        status=Status(texts["status"][at]),
        successor=texts["successor"][at],
        via=texts["via"][at],
        price=wholes["price"][at],
        stock=wholes["stock"][at],
        mass=_scaled(numbers["mass"][at], _GRAM),
        height=_metres(sheet.sizes["height"][at]),
        centre=sheet.levels["centre"][at],
        material=texts["material"][at],
        heat_rating=_scaled(numbers["heat_rating"][at], 0),
        service=Service(service) if service else None,
        heat=_scaled(numbers["heat"][at], 0) or 0.0,
        least_chimney=_metres(sheet.sizes["least_chimney"][at]),
        light=wholes["light"][at] or 0,
        style=texts["style"][at],
        support=_support(sheet, at),
        fuel=_fuel(sheet, at),
        ports=ports,
        includes=includes,
        note=texts["note"][at],
        source=texts["source"][at],
        flame=flame,
        printed=printed,
    )


def _keep_noughts(sheet: Sheet, printed: list[dict[str, str]]) -> None:
    """Keep a written 0 apart from a blank, where the record has 0 for both."""
    for name in ("light", "heat"):
        for at, text in enumerate(sheet.texts[name]):
            if text and not text.strip("+-0."):
                printed[at][name] = "0"


def _parts(sheets: Sheets) -> dict[str, Part]:
    sheet = sheets["parts"]
    ports, included = _ports(sheets["ports"]), _included(sheets["includes"])
    flames, printed = _flames(sheets["flames"]), _printed(sheet, PART_LENGTHS)
    _keep_noughts(sheet, printed)
    return {
        part: _part(
            sheet,
            at,
            ports.get(part, ()),
            included.get(part, ()),
            flames.get(part, {}),
            printed[at],
        )
        for at, part in enumerate(sheet.texts["part"])
    }


def _lamps(sheet: Sheet) -> dict[str, Lamp]:
    texts = sheet.texts
    return {
        lamp: Lamp(
            id=lamp,
            name=texts["name"][at],
            family=texts["family"][at],
            form=Form(texts["form"][at]),
            service=Service(texts["service"][at]),
            first=sheet.wholes["from"][at],
            last=sheet.wholes["to"][at],
            needs=sheet.lists["needs"][at],
            as_sold=sheet.lists["as_sold"][at],
            note=texts["note"][at],
            in_use=sheet.wholes["in_use"][at],
        )
        for at, lamp in enumerate(texts["lamp"])
    }


def _wishes(sheet: Sheet) -> dict[str, Wish]:
    texts = sheet.texts
    columns = (texts[name] for name in ("ask", "kind", "field", "test", "value", "says"))
    titles: dict[str, tuple[str, str]] = {}
    asks: dict[str, list[Ask]] = {}
    firsts = zip(texts["title"], texts["words"], strict=True)
    for wish, first, cells in zip(texts["wish"], firsts, zip(*columns, strict=True), strict=True):
        titles.setdefault(wish, first)
        asks.setdefault(wish, []).append(Ask(*cells))
    return {wish: _wish(wish, *titles[wish], held) for wish, held in asks.items()}


def _wish(wish: str, title: str, words: str, asks: Sequence[Ask]) -> Wish:
    said = (one.strip() for one in words.split(";"))
    return Wish(wish, title, tuple(asks), tuple(one for one in said if one))


def _pairs(sheet: Sheet, key: str, value: str) -> dict[str, str]:
    return dict(zip(sheet.texts[key], sheet.texts[value], strict=True))


def _signatures(sheet: Sheet) -> tuple[Signature, ...]:
    columns = (sheet.texts[name] for name in ("date", "name", "reason", "what"))
    rows = zip(*columns, strict=True)
    return tuple(Signature(date.fromisoformat(day), *words) for day, *words in rows)


def assemble(sheets: Sheets) -> Book:
    """Make the records of a book whose sheets have no fault.

    Parameters
    ----------
    sheets : dict of str to Sheet
        Read and checked.

    Returns
    -------
    Book
        The whole book.
    """
    families = sheets["families"].texts
    rows = zip(families["family"], families["name"], families["note"], strict=True)
    return Book(
        about=_pairs(sheets["about"], "key", "value"),
        families={key: Family(key, name, note) for key, name, note in rows},
        lamps=_lamps(sheets["lamps"]),
        parts=_parts(sheets),
        wishes=_wishes(sheets["wishes"]),
        calls=call_book(sheets),
        sources=_pairs(sheets["sources"], "source", "title"),
        revisions=_signatures(sheets["revisions"]),
    )
