"""Check the demo book and its orders without the program they are meant for.

Run as a script after any change to the tables: it prints every fault it finds, and exits with 1
when there is one. Its reading and its fitting are its own, by nominal sizes only: see
:mod:`wickwright.data.demo.nominal_fit`.
"""

from __future__ import annotations

import csv
import io
import math
import re
import sys
from collections import Counter
from typing import TYPE_CHECKING

from wickwright.data.demo import seen_and_heard
from wickwright.data.demo.nominal_fit import (
    HERE,
    Demo,
    Row,
    goes,
    load,
    mounted,
    nominal,
    stack,
    tips_at,
    words,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

__all__ = ["PROMISED", "canonical", "counts", "faults_of_demo", "main"]

PROMISED = {"families": 6, "lamps": 26, "parts": 170, "orders": 200, "clean": 110}
"""The least of each that the demo holds."""

FORMS = ("table", "shelf", "bracket", "hanging", "floor")
KINDS = (
    *("base", "font", "reducer", "burner", "wick", "spreader", "gallery", "mantle"),
    *("chimney", "holder", "shade", "bell", "bulb", "tool"),
)

KEYS: dict[str, tuple[str, ...]] = {
    "families": ("family",),
    "lamps": ("lamp",),
    "parts": ("part",),
    "ports": ("part", "port"),
    "includes": ("part", "includes"),
    "looks": ("look",),
    "marks": ("part", "look"),
    "swaps": ("kind",),
    "signs": ("sign",),
    "complaints": ("complaint",),
    "causes": ("cause",),
    "shows": ("cause", "sign"),
    "remedies": ("remedy",),
    "cures": ("remedy", "cause"),
    "sources": ("source",),
}
"""The columns that tell the rows of a table apart."""

LOOK_ALIKES = 8
"""The least number of parts that pass for another one and must be refused."""

TIP_LIMIT = 8.0
"""Slope a lamp must stand on [degrees]."""

MANTLE_HEAT = 500
"""Every mantle burner gives off more than this, every flat-wick burner less [W]."""

STANDARD_LIMIT = (880.0, 1020.0)
"""Elevations up to which a standard chimney serves, from the first to the last burner [m]."""

SCENARIO_PLACE = 1700.0
"""Where the caller of the scenario lives [m]."""

TALL = "12"
"""Light points by which a chimney is known for a tall one."""

BELL_ABOVE = 150.0
"""A bell hangs at least this high over the chimney it was sold with [mm]; the demo's own rule."""

TALL_LIMIT = 2600.0
"""A tall chimney serves at least this high [m]."""


def counts(demo: Demo) -> dict[str, int]:
    """Return how much of everything the demo holds."""
    orders = {row["order"] for row in demo.orders}
    faulty = {row["order"] for row in demo.key}
    return {
        "families": len(demo.tables["families"]),
        "lamps": len(demo.lamps),
        "parts": len(demo.parts),
        "orders": len(orders),
        "clean": len(orders - faulty),
    }


def _too_few(demo: Demo) -> Iterator[str]:
    held = counts(demo)
    for name, least in PROMISED.items():
        if held[name] < least:
            yield f"{held[name]} {name}, at least {least} are promised"
    forms = {row["form"] for row in demo.lamps.values()}
    yield from (f"no lamp of the form {form}" for form in FORMS if form not in forms)
    yield from (f"no part of the kind {kind}" for kind in KINDS if not demo.of_kind(kind))
    for family in demo.tables["families"]:
        if not any(row["family"] == family["family"] for row in demo.lamps.values()):
            yield f"no lamp in the family {family['family']}"


def _twice(demo: Demo) -> Iterator[str]:
    for table, columns in KEYS.items():
        seen = Counter(tuple(row[name] for name in columns) for row in demo.tables[table])
        yield from (f"{table}: {' '.join(key)} stands twice" for key, n in seen.items() if n > 1)


def canonical(text: str) -> str:
    """Return a CSV text as csv.writer writes it, with plain line ends."""
    again = io.StringIO()
    csv.writer(again, lineterminator="\n").writerows(csv.reader(io.StringIO(text, newline="")))
    return again.getvalue()


def _badly_written(_: Demo) -> Iterator[str]:
    for path in [*sorted((HERE / "book").glob("*.csv")), *sorted(HERE.glob("*.csv"))]:
        text = path.read_bytes().decode("utf-8")
        if canonical(text) != text:
            yield f"{path.name} is not written as csv.writer writes it"


def _badly_put_together(demo: Demo) -> Iterator[str]:
    for lamp, row in demo.lamps.items():
        parts = words(row["as_sold"])
        built = stack(demo, parts)
        yield from (f"{lamp}: {part} goes nowhere as sold" for part in built.loose)
        for part in built.feet:
            for on in demo.carries[part]:
                if on["need"] == "required" and (part, on["port"]) not in built.used:
                    yield f"{lamp}: nothing on the {on['port']} of {part}"
        for kind in words(row["needs"]):
            if not demo.sold(lamp, kind):
                yield f"{lamp} needs a {kind} and is sold without one"


def _out_of_time(demo: Demo) -> Iterator[str]:
    for lamp, row in demo.lamps.items():
        for part in words(row["as_sold"]):
            it = demo.parts[part]
            if int(it["from"]) > int(row["to"] or 9999) or int(it["to"] or 9999) < int(row["from"]):
                yield f"{lamp} and its {part} were never made in the same year"


def _out_of_shape(demo: Demo) -> Iterator[str]:
    for part, row in demo.parts.items():
        height, centre = nominal(row["height"]), nominal(row["centre"])
        if float(row["mass"]) <= 0:
            yield f"{part} weighs nothing"
        if not 0 < centre < height:
            yield f"{part}: the centre of mass is not inside its height"
        for port in demo.carries[part] + demo.stands[part]:
            if not 0 <= nominal(port["height"]) <= height:
                yield f"{part}: the {port['port']} is not inside its height"


def _badly_sold(demo: Demo) -> Iterator[str]:
    for part, row in demo.parts.items():
        gone = row["status"] == "no longer made"
        if bool(row["price"]) is gone:
            yield f"{part} is {row['status']} and {'has a' if gone else 'has no'} price"
        if (row["status"] == "made") is bool(row["to"]):
            yield f"{part} is {row['status']}, and its last year does not say so"
        if row["status"] == "while stocks last" and not row["stock"]:
            yield f"{part} lasts while stocks last, and its stock is not counted"


def _lost_heirs(demo: Demo) -> Iterator[str]:
    for part, row in demo.parts.items():
        seen = [part]
        heir = row["successor"]
        while heir and heir in demo.parts and heir not in seen:
            seen.append(heir)
            heir = demo.parts[heir]["successor"]
        if heir:
            yield f"the successors of {part} do not end: {' '.join([*seen, heir])}"
        if len({demo.parts[one]["kind"] for one in seen}) > 1:
            yield f"the successors of {part} are of several kinds"
        if row["via"] and row["via"] not in demo.parts:
            yield f"{part}: there is no converter {row['via']}"


def _look_alikes(demo: Demo) -> Iterator[tuple[str, str]]:
    """Yield each look-alike with the part it is taken for, as its note says."""
    for part, row in demo.parts.items():
        if found := re.match(r"look-alike of ([\w-]+)", row["note"]):
            yield part, found[1]


def _harmless_look_alikes(demo: Demo) -> Iterator[str]:
    pairs = list(_look_alikes(demo))
    if len(pairs) < LOOK_ALIKES:
        yield f"only {len(pairs)} look-alikes"
    for part, right in pairs:
        if not _is_off(demo, part, right):
            yield f"{part} would serve wherever {right} does"


def _is_off(demo: Demo, part: str, right: str) -> bool:
    """Whether a look-alike fails by size, by heat or by height where the right part serves."""
    places = [on for row in demo.carries.values() for on in row if goes(demo, on, right)]
    if not any(goes(demo, on, part) for on in places):
        return True
    mine, its = demo.parts[part], demo.parts[right]
    hottest = max(_mantle_burners(demo), key=lambda row: float(row["heat"]))["heat"]
    if float(mine["heat_rating"]) < float(hottest) <= float(its["heat_rating"]):
        return True
    least = min(nominal(row["least_chimney"]) for row in _mantle_burners(demo))
    return mine["kind"] == "chimney" and nominal(mine["height"]) < least


def _mantle_burners(demo: Demo) -> list[Row]:
    burners = [demo.parts[part] for part in demo.of_kind("burner")]
    return [row for row in burners if float(row["heat"] or 0) > MANTLE_HEAT]


def _bells_on_the_glass(demo: Demo) -> Iterator[str]:
    for lamp, row in demo.lamps.items():
        bell, chimney = demo.sold(lamp, "bell"), demo.sold(lamp, "chimney")
        feet = stack(demo, words(row["as_sold"])).feet
        if bell in feet and chimney in feet:
            free = feet[bell] - feet[chimney] - nominal(demo.parts[chimney]["height"])
            if free < BELL_ABOVE:
                yield f"{lamp}: its bell {bell} hangs {free:.0f} mm above its chimney"


def _falling_lamps(demo: Demo) -> Iterator[str]:
    for lamp, row in demo.lamps.items():
        parts = words(row["as_sold"])
        if row["form"] in ("table", "shelf", "floor") and tips_at(demo, parts) < TIP_LIMIT:
            yield f"{lamp} tips as sold at {tips_at(demo, parts):.2f} degrees"
        if row["form"] == "shelf" and row["family"] != "turnstone":
            yield from _wrong_on_a_shelf(demo, lamp)


def _wrong_on_a_shelf(demo: Demo, lamp: str) -> Iterator[str]:
    """See that every glass shade tips a shelf lamp and every light one stands on it."""
    bare = words(demo.lamps[lamp]["as_sold"])
    for holder in demo.of_kind("holder"):
        if not mounted(demo, [*bare, holder]):
            continue
        for shade in demo.of_kind("shade"):
            if not any(goes(demo, on, shade) for on in demo.carries[holder]):
                continue
            at = tips_at(demo, [*bare, holder, shade])
            glass = "glass" in demo.parts[shade]["material"]
            if (at < TIP_LIMIT) is not glass:
                yield f"{lamp} with {holder} and {shade} tips at {at:.2f} degrees"


def _serves_to(height: float, least: float) -> float:
    """Return the elevation [m] up to which a chimney is tall enough (standard atmosphere)."""
    return (1.0 - math.pow(least / height, 1 / 5.25588)) / 2.25577e-5


def _wrong_drafts(demo: Demo) -> Iterator[str]:
    for lamp in demo.lamps:
        chimney, burner = demo.sold(lamp, "chimney"), demo.parts[demo.sold(lamp, "burner")]
        if not chimney or float(burner["heat"] or 0) < MANTLE_HEAT:
            continue
        least = nominal(burner["least_chimney"])
        limit = _serves_to(nominal(demo.parts[chimney]["height"]), least)
        tall = demo.parts[chimney]["light"] == TALL
        low, high = (TALL_LIMIT, math.inf) if tall else STANDARD_LIMIT
        if not low <= limit <= high:
            yield f"{lamp}: its chimney {chimney} serves to {limit:.0f} m"


def _broken_scenario(demo: Demo) -> Iterator[str]:
    """Try the one purchase that serves a shelf lamp with a quarter-turn chimney, 1,700 m up."""
    lamp, gallery, tall = "WH-302", "GA-2450", "CH-3371"
    kept = [
        part
        for part in words(demo.lamps[lamp]["as_sold"])
        if demo.parts[part]["kind"] not in ("gallery", "chimney")
    ]
    seat = demo.sold(lamp, "gallery")
    least = nominal(demo.parts[demo.sold(lamp, "burner")]["least_chimney"])
    for chimney in demo.of_kind("chimney"):
        row = demo.parts[chimney]
        if row["price"] and mounted(demo, [*kept, seat, chimney]):
            yield f"{chimney} can still be had for the old seat of {lamp}"
        if row["price"] and mounted(demo, [*kept, gallery, chimney]):
            serves = _serves_to(nominal(row["height"]), least) >= SCENARIO_PLACE
            if serves is not (row["light"] == TALL):
                yield f"{chimney} {'serves' if serves else 'does not serve'} {lamp} at 1700 m"
    for pair in ([gallery, tall], [gallery, tall, "HO-2073", "SH-0731"]):
        if not mounted(demo, [*kept, *pair]) or tips_at(demo, [*kept, *pair]) < TIP_LIMIT:
            yield f"{lamp} is not mended by {' '.join(pair)}"
    if tips_at(demo, [*kept, gallery, tall, "HO-2164", "SH-1640"]) >= TIP_LIMIT:
        yield f"{lamp} stands with a glass shade"


def _bad_orders(demo: Demo) -> Iterator[str]:
    orders = {row["order"] for row in demo.orders}
    ordered = {(row["order"], row["part"]) for row in demo.orders}
    ordered |= {(order, "") for order in orders}  # a fault of the lamp names no part
    for row in demo.key:
        if (row["order"], row["part"]) not in ordered:
            yield f"the key names {row['part']} in {row['order']}, which is not there"
    faulty = {row["order"] for row in demo.key}
    for row in demo.orders:
        if row["order"] not in faulty:
            yield from _not_clean(demo, row)
    yield from _misnamed(demo)


def _not_clean(demo: Demo, row: Row) -> Iterator[str]:
    part = demo.parts.get(row["part"])
    if part is None or (row["lamp"] and row["lamp"] not in demo.lamps):
        yield f"{row['order']} is clean and names something unknown"
    elif part["status"] != "made" or int(part["stock"] or 9999) < int(row["quantity"]):
        yield f"{row['order']} is clean and orders {row['part']}, which is not plentiful"


def _misnamed(demo: Demo) -> Iterator[str]:
    """Compare what is unknown with what the key calls so."""
    unknown = {(row["order"], row["part"]) for row in demo.key if row["fault"] == "unknown-part"}
    strange = {(row["order"], row["part"]) for row in demo.orders if row["part"] not in demo.parts}
    for order, part in sorted(unknown ^ strange):
        yield f"{order}: {part} is known or is not in the key"


CHECKS = (
    _too_few,
    _twice,
    _badly_written,
    _badly_put_together,
    _out_of_time,
    _out_of_shape,
    _badly_sold,
    _lost_heirs,
    _harmless_look_alikes,
    _bells_on_the_glass,
    _falling_lamps,
    _wrong_drafts,
    _broken_scenario,
    _bad_orders,
    *seen_and_heard.CHECKS,
)


def faults_of_demo(demo: Demo | None = None) -> list[str]:
    """Return every fault of the demo in words; none when it keeps its promises.

    Parameters
    ----------
    demo : Demo or None
        What to check; None for the files beside this one.

    Returns
    -------
    list of str
        One sentence a fault.
    """
    checked = demo or load()
    return [fault for check in CHECKS for fault in check(checked)]


def main() -> int:
    """Print the faults, or the counts when there are none."""
    demo = load()
    faults = faults_of_demo(demo)
    lines = faults or [f"{number} {name}" for name, number in counts(demo).items()]
    print("\n".join(lines))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
