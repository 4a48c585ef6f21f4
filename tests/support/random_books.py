"""Random sound books, every cell as the program would print it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import strategies as st

from wickwright.catalogue.check_ports import JOINT_COLUMNS
from wickwright.catalogue.lists import JOINTS, LISTS, MATERIALS
from wickwright.catalogue.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.support.tables import Cells, Draft

_SIGNS = "aZ09 .,;:'\"#=@+-_/\\±éß\n\r\t\x01\x85\u2028\ufeff\U0001f4a1"
texts = st.text(_SIGNS, max_size=8).map(str.strip)
names = texts.filter(lambda text: bool(text) and not text.startswith("#"))
keys = st.from_regex(r"[A-Za-z0-9][A-Za-z0-9./-]{0,4}", fullmatch=True)
maybe = st.booleans()

_years = st.integers(1700, 1899).map(str) | st.just("")
_counts = st.integers(0, 9999).map(str) | st.just("")
_money = st.integers(0, 10**8).map(lambda c: f"{c // 100}.{c % 100:02d}") | st.just("")


def _decimal(whole: int, hundredths: int) -> str:
    return f"{whole}.{hundredths:02d}".rstrip("0").rstrip(".")


_sizes = st.builds(_decimal, st.integers(1, 900), st.integers(0, 99))
_numbers = _sizes | st.just("")
lengths = st.one_of(
    _sizes.map(lambda size: f"{size} mm"),
    st.builds("{} ± 0.{} mm".format, _sizes, st.integers(1, 9)),
    st.builds("{} +{}/-0.2 mm".format, _sizes, _sizes),
    st.builds("{} {}/8 in".format, st.integers(1, 20), st.sampled_from([1, 3, 5, 7])),
    st.builds('{}/16"'.format, st.integers(1, 40)),
)
_maybe_lengths = lengths | st.just("")
_ranges = st.builds("{}..{} mm".format, st.integers(1, 40), st.integers(41, 90))
_heights = st.one_of(lengths, st.just("0 mm"), lengths.map(lambda text: f"-{text}"))
_pitches = st.integers(1, 60).map("{} tpi".format) | _sizes.map("{} mm".format)

_PORT_CELLS: dict[str, st.SearchStrategy[str]] = {
    "diameter": _maybe_lengths,
    "capture": _ranges | st.just(""),
    "pitch": _pitches | st.just(""),
    "hand": st.sampled_from(("", *LISTS["hands"])),
    "lugs": st.integers(1, 9).map(str) | st.just(""),
    "angle": st.builds(_decimal, st.integers(1, 359), st.integers(0, 99)) | st.just(""),
    "cap": texts,
    "limit": _numbers,
}
_FORMS = {"thread": ("", "un", "round", "tube"), "wick": ("", "round", "flat")}


def _row(strategies: dict[str, st.SearchStrategy[str]]) -> st.SearchStrategy[Cells]:
    return st.fixed_dictionaries(strategies)


def _part(kind: str) -> st.SearchStrategy[Cells]:
    cells: dict[str, st.SearchStrategy[str]] = {
        "name": names,
        "kind": st.just(kind),
        "from": _years,
        "status": st.sampled_from(LISTS["statuses"]),
        "price": _money,
        "stock": _counts,
        "mass": _numbers,
        "height": _maybe_lengths,
        "centre": _heights | st.just(""),
        "material": st.sampled_from(("", *MATERIALS)),
        "heat_rating": _numbers,
        "service": st.sampled_from(("", *LISTS["services"])),
        "light": st.integers(1, 50).map(str) | st.integers(-50, -1).map(str) | st.just(""),
        "style": st.sampled_from(("", *LISTS["styles"])),
        "note": texts,
    }
    if kind == "burner":
        cells |= {"heat": _numbers, "least_chimney": _maybe_lengths}
    if kind == "base":
        feet = _row({"support": st.just("feet"), "feet": st.just("4"), "radius": lengths})
        round_ = _row({"support": st.just("round"), "radius": lengths})
        stand = feet | round_ | _row({"support": st.just("hung")}) | _row({})
        return st.builds(dict.__or__, _row(cells), stand)
    if kind == "font":
        fuel = _row({"fuel_volume": _sizes, "fuel_floor": _heights, "fuel_depth": lengths})
        return st.builds(dict.__or__, _row(cells), fuel | _row({}))
    return _row(cells)


@st.composite
def _port(draw: Callable[[st.SearchStrategy[str]], str], part: str, name: str) -> Cells:
    joint = draw(st.sampled_from(tuple(JOINTS)))
    side = draw(st.sampled_from(LISTS["sides"]))
    cells = {"part": part, "port": name, "side": side, "joint": joint}
    for column in JOINT_COLUMNS[joint, side]:
        if column == "form":
            arms = joint == "open-arms"
            cells[column] = draw(st.sampled_from(("", "3") if arms else _FORMS[joint]))
        else:
            cells[column] = draw(_PORT_CELLS[column])
    if side == "carries":
        cells["takes"] = draw(st.sampled_from(("burner reducer", "wick", "chimney tool")))
        cells["need"] = "optional"
    cells["height"] = draw(_heights)
    cells["label"], cells["note"] = draw(texts), draw(texts)
    cells["reach"] = draw(_maybe_lengths)
    return cells


@st.composite
def drafts(draw: Callable[[st.SearchStrategy[object]], object]) -> Draft:
    """Draw the rows of a sound book."""
    ids = draw(st.lists(keys, min_size=1, max_size=6, unique=True))
    assert isinstance(ids, list)
    parts: list[Cells] = []
    ports: list[Cells] = []
    for key in ids:
        kind = str(draw(st.sampled_from(tuple(KINDS))))
        cells = draw(_part(kind))
        assert isinstance(cells, dict)
        heirs = [part["part"] for part in parts if part["kind"] == kind]
        if heirs and draw(maybe):
            cells |= {"successor": heirs[-1], "via": ids[0], "source": "s"}
        parts.append({"part": key, **cells})
        for name in range(int(str(draw(st.integers(0, 2))))):
            port = draw(_port(key, f"p{name}"))
            assert isinstance(port, dict)
            ports.append(port)
    return {
        "about": [{"key": "currency", "value": str(draw(names))}],
        "revisions": [
            {
                "date": "2026-07-01",
                "name": str(draw(names)),
                "reason": "r",
                "what": str(draw(texts)),
            }
        ],
        "families": [{"family": "f", "name": str(draw(names)), "note": str(draw(texts))}],
        "lamps": _lamps(parts),
        "parts": parts,
        "ports": ports,
        "includes": _includes(parts),
        "flames": [row for part in parts for row in _flames(part)],
        "wishes": [
            {"wish": "w", "title": str(draw(names)), "ask": "brighter", "says": str(draw(names))},
            {"wish": "w", "ask": "renew", "kind": "wick", "says": str(draw(names))},
        ],
        "looks": [_look(parts)],
        "marks": [{"part": parts[0]["part"], "look": "l", "value": "160 mm"}],
        "swaps": [{"kind": "wick", "share": "2.5", "source": "s", "note": str(draw(texts))}],
        "signs": [{**_SIGN, "question": str(draw(names)), "needs": "font wick"}],
        "complaints": [{"complaint": "c", "says": str(draw(names)), "sign": "g", "words": "a; b"}],
        "causes": [{**_CAUSE, "says": str(draw(names)), "families": "f"}],
        "shows": [{"cause": "k", "sign": "g", "strength": "weak", "source": "practice"}],
        "remedies": [{**_REMEDY, "caution": str(draw(texts)), "wish": "w"}],
        "cures": [{"remedy": "r", "cause": "k", "sure": "80.5"}],
        "sources": [{"source": "s", "title": str(draw(names))}],
    }


def _lamps(parts: list[Cells]) -> list[Cells]:
    """Return a lamp made of the first part of each kind, if there is a base."""
    first = {part["kind"]: part["part"] for part in reversed(parts)}
    if "base" not in first:
        return []
    sold = " ".join((first.pop("base"), *first.values()))
    common = {"name": "Lamp", "family": "f", "form": "table", "service": "oil"}
    return [{"lamp": "L", **common, "from": "1900", "needs": "wick", "as_sold": sold}]


def _look(parts: list[Cells]) -> Cells:
    """Return a measured look at the first part."""
    cells = {"look": "l", "kind": parts[0]["kind"], "question": "Q", "way": "measure"}
    return {**cells, "minutes": "0.5", "error": "1/16 in", "right": "88.5"}


_SIGN = {
    "sign": "g",
    "says": "it is so",
    "way": "ask",
    "minutes": "0.25",
    "state": "lit",
    "yes_right": "90.5",
    "why": "w",
    "source": "practice",
}
_CAUSE = {"cause": "k", "weight": "4.5", "computed": "low-fuel", "why": "w", "source": "practice"}
_REMEDY = {
    "remedy": "r",
    "says": "do it",
    "minutes": "6",
    "state": "any",
    "extra": "10",
    "source": "practice",
}
"""The rest of the cells of a sign, a cause and a remedy."""


_FLAMES = {
    "burner": ("wick_limit", "62.5 g/h", "5 %"),
    "mantle": ("mantle_area", "45 cm2", "300 mm2"),
    "chimney": ("wall", "0.08 in", "0.2 mm"),
}
"""A property of each kind of part that burns, its value and its spread."""


def _flames(part: Cells) -> list[Cells]:
    """Say of each part that burns how it does."""
    if part["kind"] not in _FLAMES:
        return []
    name, value, spread = _FLAMES[part["kind"]]
    cells = {"part": part["part"], "property": name, "value": value, "spread": spread}
    return [{**cells, "source": "s" if part["kind"] == "chimney" else "assumption", "note": "n"}]


def _includes(parts: list[Cells]) -> list[Cells]:
    """Let the first burner come with the first wick."""
    first = {part["kind"]: part["part"] for part in reversed(parts)}
    if "burner" in first and "wick" in first:
        return [{"part": first["burner"], "includes": first["wick"]}]
    return []
