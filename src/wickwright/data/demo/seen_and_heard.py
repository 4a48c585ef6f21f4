"""Check the demo's looks, marks, signs and causes against its parts and against each other.

Like :mod:`wickwright.data.demo.nominal_fit` it shares no code with the program.
"""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

from wickwright.data.demo.nominal_fit import Demo, Row, nominal, words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

__all__ = ["CHECKS", "told_apart"]

ALIKE: frozenset[tuple[str, str]] = frozenset()
"""Pairs of lamps that no look tells apart, and that need none since they take the same parts."""

ROUNDED = 0.51
"""Marks are rounded to whole millimetres, or to tenths [mm]."""

DANGERS = {
    *("wet-font", "cracked-font", "no-answer", "outside-glass"),
    *("wrong-fuel", "unwell", "closed-room"),
}

COMPLAINTS = 10
"""The least number of complaints."""

CALL_WORDS = 4
"""The least number of callers' words for a complaint."""

OWN_CAUSES = 2
"""The least number of causes of a complaint."""

WEIGHTS = (60.0, 160.0)
"""What the causes of one lamp weigh together, of a hundred lamps complained of."""


def _port(demo: Demo, part: str, *names: str) -> Row | None:
    ports = demo.carries[part] + demo.stands[part]
    return next((port for port in ports if port["port"] in names), None)


def _height(demo: Demo, part: str) -> float:
    return nominal(demo.parts[part]["height"])


def _radius(demo: Demo, part: str) -> float:
    return nominal(demo.parts[part]["radius"])


def _across(*names: str) -> Callable[[Demo, str], float]:
    """Return how to find the size of the first of these ports."""

    def size(demo: Demo, part: str) -> float:
        port = _port(demo, part, *names)
        return nominal(port["diameter"] or port["capture"]) if port else 0.0

    return size


SIZES: dict[str, Callable[[Demo, str], float]] = {
    "base-height": _height,
    "base-across": lambda demo, part: 2 * _radius(demo, part),
    "base-reach": _radius,
    "collar-across": _across("collar"),
    "font-height": _height,
    "font-foot": _across("foot"),
    "burner-screw": _across("screw"),
    "wick-across": _across("wick tube"),
    "gallery-skirt": _across("skirt"),
    "chimney-height": _height,
    "chimney-across": _across("foot"),
    "holder-width": _across("ring", "arms"),
    "holder-foot": _across("foot"),
    "shade-fitter": _across("fitter", "frame"),
}
"""What each measured look measures [mm]."""


def _stance(demo: Demo, part: str) -> str:
    row = demo.parts[part]
    feet = {"3": "three feet or toes", "4": "four feet or toes"}
    return {
        "round": "one round foot",
        "fixed": "an arm on the wall",
        "hung": "a frame hung from above",
    }.get(row["support"]) or feet[row["feet"]]


def _magnet(demo: Demo, part: str) -> str:
    holds = demo.parts[part]["material"] in ("cast-iron", "steel")
    return "it holds" if holds else "it does not hold"


def _ridges(demo: Demo, part: str) -> str:
    pitch = words(_must(demo, part, "collar")["pitch"])
    to_the_inch = float(pitch[0]) if pitch[1] == "tpi" else 25.4 / float(pitch[0])
    return f"{to_the_inch:.0f} to the inch"


def _must(demo: Demo, part: str, name: str) -> Row:
    port = _port(demo, part, name)
    return port or {"pitch": "0 tpi", "form": "", "joint": "", "lugs": ""}


def _crests(demo: Demo, part: str) -> str:
    forms = {"un": "sharp", "round": "round", "tube": "flat"}
    return forms.get(_must(demo, part, "collar")["form"], "")


def _seat(demo: Demo, part: str) -> str:
    seat = _must(demo, part, "seat")
    turned = f"dropped in and turned under {seat['lugs']} lugs"
    return turned if seat["joint"] == "quarter-turn" else "pushed down between spring fingers"


def _grooves(demo: Demo, part: str) -> str:
    foot = _must(demo, part, "foot")
    grooved = f"{foot['lugs']} grooves in the foot"
    return grooved if foot["joint"] == "quarter-turn" else "a smooth foot"


def _there(port: str, yes: str, no: str) -> Callable[[Demo, str], str]:
    return lambda demo, part: yes if _port(demo, part, port) else no


SEEN: dict[str, Callable[[Demo, str], str]] = {
    "base-stance": _stance,
    "base-magnet": _magnet,
    "collar-ridges": _ridges,
    "collar-crests": _crests,
    "mantle-post": _there("mantle post", "a post", "no post"),
    "burner-rim": _there("rim", "a rim", "no rim"),
    "gallery-seat": _seat,
    "mantle-ring": _there("mantle ring", "a ring", "no ring"),
    "gallery-rim": _there("rim", "a rim", "no rim"),
    "chimney-foot": _grooves,
}
"""What is seen by the looks that follow from a part's own rows."""


def _false_marks(demo: Demo) -> Iterator[str]:
    for row in demo.tables["marks"]:
        part, look, value = row["part"], row["look"], row["value"]
        if look in SIZES:
            size = SIZES[look](demo, part)
            if abs(nominal(value) - size) > ROUNDED:
                yield f"{part}: {look} is marked {value} and measures {size:.1f} mm"
        elif look in SEEN and SEEN[look](demo, part) != value:
            yield f"{part}: {look} is marked {value}, and its rows say {SEEN[look](demo, part)}"
    for row in demo.tables["looks"]:
        if row["way"] == "measure" and row["look"] not in SIZES:
            yield f"nothing says what {row['look']} measures"


def _marks(demo: Demo) -> dict[str, dict[str, str]]:
    """Return what each look shows on each part."""
    shown: dict[str, dict[str, str]] = {part: {} for part in demo.parts}
    for row in demo.tables["marks"]:
        shown[row["part"]][row["look"]] = row["value"]
    return shown


def _unmarked(demo: Demo) -> Iterator[str]:
    looked_at = {row["kind"] for row in demo.tables["looks"]}
    for part, shown in _marks(demo).items():
        if demo.parts[part]["kind"] in looked_at and not shown:
            yield f"{part} has no mark"


def told_apart(demo: Demo, one: str, other: str) -> list[str]:
    """Return what tells two lamps apart.

    Parameters
    ----------
    demo : Demo
        The demo.
    one, other : str
        Two lamps as sold.

    Returns
    -------
    list of str
        Kinds of part that only one of them has, and looks that show another value.
    """
    shown = _marks(demo)
    kinds = {row["kind"] for row in demo.tables["looks"]}
    found = []
    for kind in sorted(kinds):
        parts = demo.sold(one, kind), demo.sold(other, kind)
        if bool(parts[0]) is not bool(parts[1]):
            found.append(kind)
        elif all(parts):
            mine, its = shown[parts[0]], shown[parts[1]]
            found += [look for look in mine if look in its and mine[look] != its[look]]
    return found


def _untold(demo: Demo) -> Iterator[str]:
    for pair in combinations(demo.lamps, 2):
        if pair not in ALIKE and not told_apart(demo, *pair):
            yield f"nothing tells {pair[0]} from {pair[1]}"
    for lamp, row in demo.lamps.items():
        if not row["in_use"]:
            yield f"nobody knows how many of {lamp} are in use"


def _unheard(demo: Demo) -> Iterator[str]:
    """See that every cause can be reached from a complaint, and every danger be found."""
    tables = demo.tables
    heard = {row["sign"] for row in tables["complaints"]}
    reached = {row["cause"] for row in tables["shows"] if row["sign"] in heard}
    for row in tables["causes"]:
        if row["cause"] not in reached:
            yield f"no complaint leads to the cause {row['cause']}"
    found = {row["danger"] for row in tables["signs"]}
    yield from (f"no sign raises the danger {danger}" for danger in sorted(DANGERS - found))
    if len(tables["complaints"]) < COMPLAINTS:
        yield f"only {len(tables['complaints'])} complaints"
    for row in tables["complaints"]:
        if len(row["words"].split(";")) < CALL_WORDS:
            yield f"callers have too few words for the complaint {row['complaint']}"


def _explained_once(demo: Demo) -> Iterator[str]:
    """See that every complaint has a choice of causes, however weak."""
    for row in demo.tables["complaints"]:
        causes = [show for show in demo.tables["shows"] if show["sign"] == row["sign"]]
        if len(causes) <= OWN_CAUSES:  # something else is one more
            yield f"the complaint {row['complaint']} has too few causes of its own"


def _weights(demo: Demo, lamp: str) -> float:
    """Return what the causes of a lamp weigh together."""
    kinds = {demo.parts[part]["kind"] for part in words(demo.lamps[lamp]["as_sold"])}
    family = demo.lamps[lamp]["family"]
    return sum(
        float(row["weight"])
        for row in demo.tables["causes"]
        if kinds >= set(words(row["needs"]))
        and (not row["families"] or family in words(row["families"]))
    )


def _badly_weighed(demo: Demo) -> Iterator[str]:
    low, high = WEIGHTS
    for lamp in demo.lamps:
        weight = _weights(demo, lamp)
        if not low <= weight <= high:
            yield f"the causes of {lamp} weigh {weight:.0f} of a hundred"


CHECKS = (_false_marks, _unmarked, _untold, _unheard, _explained_once, _badly_weighed)
