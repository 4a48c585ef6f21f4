"""Plant the demo orders: clean ones, and ones with faults that are known because they were put in.

Run as a script. It writes ``orders.csv`` and ``orders_key.csv`` beside itself, the same bytes at
every run. What is faulty is written down here part by part; nothing is judged.
"""

from __future__ import annotations

import csv
import random
from pathlib import Path
from typing import NamedTuple

__all__ = ["CLEAN_SETS", "FAULTS", "ORDERS", "PLANTED", "main"]

HERE = Path(__file__).parent
SEED = 1912
ORDERS = 200
FROM_SETS = 62
"""How many clean orders are drawn from :data:`CLEAN_SETS`; the rest renew a lamp's own parts."""

FAULTS = (
    "missing-companion",
    "surplus",
    "wrong-joint",
    "not-heat-rated",
    "tips",
    "oil-beside-electric",
    "wrong-for-place",
    "dead",
    "dying",
    "over-limit",
    "unknown-part",
    "unknown-lamp",
    "bad-quantity",
    "not-known",
)

LOW = ("", "", "", "0 m", "15 m", "120 m", "340 m", "600 m", "900 ft", "1500 ft")
"""Places where every standard chimney serves; blank is sea level."""

HIGH = ("1250 m", "1700 m", "2100 m", "2400 m", "5200 ft", "7000 ft")
"""Places that ask for a tall chimney."""

CLEAN_SETS = """
# lamps ; low, high or any ; parts that may be ordered for each of them
SA-201 SA-203 SA-204 SA-206 WH-301 WH-302 WH-303 ; low  ; GA-2450 CH-3296
SA-201 SA-203 SA-204 SA-206 WH-301 WH-302 WH-303 ; high ; GA-2450 CH-3371
WH-304 WH-307 SA-205                             ; high ; GA-2455 CH-3372
SA-201 WH-301 WH-304 WH-307 SA-204               ; low  ; WI-2100 TO-2100 MA-2310
SA-203 SA-206 WH-302 WH-305 WH-306 WH-308        ; low  ; WI-2100 MA-2300
TY-101 TY-102 TY-103 TY-104 TY-105               ; low  ; TO-1110
TY-101 TY-103 TY-104                             ; low  ; HO-1073 SH-0730
TY-101 TY-103 TY-104                             ; low  ; RE-1020 BU-3210 CH-3296
TY-101 TY-103                                    ; high ; RE-1021 BU-3215 CH-3371
SA-201 SA-203                                    ; low  ; RE-1020 BU-3210 CH-3297 HO-2098 SH-0981
WH-301 WH-303 WH-306                             ; low  ; BU-3210 CH-3296
WH-301 WH-303 WH-306                             ; high ; BU-3210 CH-3371
SA-206 WH-302 WH-308 DU-406                      ; low  ; HO-2073 SH-0731
SA-206 WH-302 WH-308 DU-406                      ; low  ; HO-2098 SH-0980
WH-302                                           ; high ; GA-2450 CH-3371 HO-2073 SH-0731
SA-201 WH-301 DU-401                             ; low  ; HO-2198 SH-1980
SA-201 WH-301 DU-401 DU-403                      ; low  ; HO-2243 SH-2430
DU-401 DU-403 DU-404                             ; low  ; HO-2164 SH-1642
SA-205 DU-402 BX-701                             ; low  ; HO-2199 SH-1983
DU-401 DU-402 DU-403 DU-404 DU-405               ; low  ; WI-3110 SP-3110 MA-3310
DU-406 DU-407 DU-408 DU-409                      ; low  ; TO-3110 WI-3100
DU-401 DU-402 DU-403 DU-404 DU-405 DU-406        ; high ; CH-3371
DU-402 DU-405                                    ; high ; CH-3372 MA-3310
SO-501 SO-502 SO-503 SO-504                      ; low  ; WI-5100 MA-5200
SO-501 SO-502 SO-503 SO-504                      ; high ; CH-5402
SO-501 SO-502                                    ; low  ; HO-5098 SH-0982
TU-601 TU-602 TU-603                             ; any  ; WI-6100 TO-6100
TU-601 TU-602                                    ; any  ; HO-6164 SH-1649
TU-604                                           ; any  ; CH-6160 WI-6200
TY-101 TY-103 TY-104                             ; any  ; BU-7100 LB-2760
SA-201 SA-203 SA-204 SA-206                      ; any  ; BU-7110 LB-2740
WH-301 WH-302 WH-303 DU-401                      ; any  ; BU-7220
WH-305 DU-402 DU-405                             ; any  ; BU-7200 LB-2775
TU-601 TU-602                                    ; any  ; BU-7600 LB-1440
BX-702 BX-703 BX-704                             ; any  ; LB-2761
-                                                ; low  ; WI-2100
-                                                ; low  ; MA-3310
-                                                ; low  ; LB-2741
"""
"""What goes together for sure; a dash stands for an order that names no lamp."""

PLANTED = """
# lamp ; place ; parts, each with its quantity after an x and its fault after an exclamation mark
SA-201 ; ; SH-1980!missing-companion
WH-302 ; 40 m ; SH-0731!missing-companion MA-2300x2
DU-401 ; ; SH-2430!missing-companion
TY-101 ; 120 m ; SH-0730!missing-companion
DU-403 ; 300 m ; WI-3100 SH-0980!missing-companion
TU-601 ; ; SH-1649!missing-companion
WH-301 ; ; LB-2760!missing-companion
SA-204 ; ; BE-2100!missing-companion WI-2100
WH-301 ; ; BU-3210 WI-3100!surplus CH-3296
DU-401 ; 200 m ; BU-3210 MA-3300!surplus
DU-402 ; ; BU-3215 GA-3435!surplus
BX-702 ; 1400 m ; BU-7220 LB-2760!surplus
DU-408 ; ; SP-3100!surplus BU-3220
TU-601 ; 900 m ; BU-6110 WI-6100x2!surplus
DU-404 ; ; MA-3300 WI-3100 MA-3300!surplus
WH-302 ; 200 m ; CH-3296!wrong-joint
SA-201 ; ; CH-3296!wrong-joint MA-2300
TY-103 ; ; CH-3297!wrong-joint
DU-401 ; ; CH-3299!wrong-joint
DU-402 ; 90 m ; WI-2100!wrong-joint MA-3300
WH-301 ; ; WI-2190!wrong-joint
TU-601 ; ; WI-6190x4!wrong-joint
WH-304 ; ; SH-0730!wrong-joint
DU-402 ; ; SH-2430!wrong-joint
SA-201 ; ; HO-1073!wrong-joint
WH-301 ; 60 m ; BU-6100!wrong-joint
DU-403 ; ; MA-2310x2!wrong-joint
BX-701 ; ; LB-2260!wrong-joint
DU-401 ; ; CH-6296!not-heat-rated
WH-305 ; 200 m ; CH-6296!not-heat-rated WI-2100
DU-407 ; ; CH-7296!not-heat-rated
SA-201 ; ; HO-2198 SH-1989!not-heat-rated
WH-304 ; ; SH-0989!not-heat-rated
SA-203 ; 150 m ; BE-6100!not-heat-rated
DU-401 ; ; HO-2073 SH-0733!not-heat-rated
WH-302 ; ; HO-2164 SH-1640!tips
DU-406 ; 100 m ; HO-2198 SH-1980!tips
DU-409 ; ; SH-1981!tips
SA-206 ; ; HO-2243 SH-2430!tips
WH-305 ; ; SH-1981!tips MA-2300
BX-705 ; 1700 m ; HO-2198 SH-1989!tips
BX-702 ; ; MA-3300!oil-beside-electric
BX-701 ; ; WI-2100!oil-beside-electric
SA-201 ; 20 m ; BU-7110 LB-2760 MA-2310!oil-beside-electric
DU-401 ; ; BU-7200 LB-2760 GA-3430!oil-beside-electric
BX-703 ; 2000 m ; SP-3100!oil-beside-electric LB-2760
DU-401 ; 1700 m ; CH-3296!wrong-for-place
WH-305 ; 5200 ft ; CH-3296!wrong-for-place
DU-402 ; 1400 m ; CH-3297!wrong-for-place MA-3300
WH-302 ; 1700 m ; GA-2450 CH-3296!wrong-for-place
SO-501 ; 1900 m ; CH-5318!wrong-for-place
DU-404 ; 150 m ; CH-3250!wrong-for-place
DU-407 ; 3100 m ; CH-3371!wrong-for-place WI-3110
WH-302 ; ; CH-2296!dead
WH-303 ; ; MA-2100!dead WI-2100
SA-201 ; 80 m ; WI-2050!dead
TY-101 ; ; CH-1296!dead
TY-104 ; ; GA-1450!dead
SA-202 ; ; SH-1985!dead
- ; ; LB-2759!dead
TY-101 ; ; WI-1100x2!dying
TY-105 ; 240 m ; MA-1200!dying
SA-203 ; ; GA-2410!dying
SO-501 ; ; SP-5100!dying MA-5200
WH-303 ; ; BE-2120!dying
DU-401 ; 500 m ; CH-3318!dying
TU-601 ; ; CH-6215x2!dying
BX-701 ; ; LB-2775!over-limit
BX-703 ; 1700 m ; LB-2799x2!over-limit
BX-704 ; ; LB-2799!over-limit
WH-301 ; ; BU-7200 LB-2799!over-limit
TU-601 ; ; BU-7600 LB-1460!over-limit
DU-401 ; ; CH-3926!unknown-part
SA-201 ; 50 m ; WI-2100x2 MA-2030!unknown-part
- ; ; SH-9180!unknown-part
WH-312!unknown-lamp ; ; WI-2100
DU-4O1!unknown-lamp ; 300 m ; MA-3300x2
SA-221!unknown-lamp ; ; WI-2100 MA-2300
DU-401 ; ; WI-3100x0!bad-quantity
WH-301 ; ; WI-2100xtwo!bad-quantity MA-2300
- ; ; MA-3300x-1!bad-quantity
TU-601 ; ; WI-6100x1.5!bad-quantity
DU-401 ; ; CH-3301!not-known
SA-205 ; ; SH-1987!not-known
WH-301 ; 30 m ; WI-3190!not-known MA-2300
DU-406 ; ; CH-3301!not-known
DU-401 ; 1700 m ; CH-3296!wrong-for-place SH-1980!missing-companion
WH-302 ; 30 m ; CH-3296!wrong-joint SH-0980!missing-companion
BX-701 ; ; LB-2775!over-limit WI-2100!oil-beside-electric
"""
"""Orders with faults; what is not marked is clean."""

RENEWED = ("wick", "mantle", "spreader", "chimney", "gallery", "holder", "shade", "bell", "bulb")
BY_THE_HANDFUL = ("wick", "mantle", "bulb")


class Line(NamedTuple):
    """A part ordered and what is wrong with it; blank when nothing is."""

    part: str
    quantity: str = "1"
    fault: str = ""


class Order(NamedTuple):
    """An order before it has a number; ``fault`` is the lamp's."""

    lamp: str
    place: str
    lines: tuple[Line, ...]
    fault: str = ""


def _book(table: str) -> list[dict[str, str]]:
    with (HERE / "book" / f"{table}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _rows(text: str) -> list[list[str]]:
    """Return the cells of each written line, notes left out."""
    lines = (line for line in text.strip().splitlines() if not line.startswith("#"))
    return [[cell.strip() for cell in line.split(";")] for line in lines]


def _lamp(word: str) -> str:
    return "" if word == "-" else word


def _line(word: str) -> Line:
    """Read ``CH-3296``, ``MA-2300x2`` or ``WI-1100x2!dying``."""
    ordered, _, fault = word.partition("!")
    part, _, quantity = ordered.partition("x")
    return Line(part, quantity or "1", fault)


def _planted() -> list[Order]:
    orders = []
    for lamp, place, words in _rows(PLANTED):
        name, _, fault = lamp.partition("!")
        lines = tuple(_line(word) for word in words.split())
        orders.append(Order(_lamp(name), place, lines, fault))
    return orders


def _from_sets(rng: random.Random) -> list[Order]:
    """Draw clean orders: every set once, the others at random."""
    places = {"low": LOW, "high": HIGH, "any": LOW + HIGH}
    sets = _rows(CLEAN_SETS)
    drawn = sets + rng.choices(sets, k=FROM_SETS - len(sets))
    return [
        Order(
            _lamp(rng.choice(lamps.split())),
            rng.choice(places[where]),
            tuple(Line(part) for part in parts.split()),
        )
        for lamps, where, parts in drawn
    ]


def _renewals(rng: random.Random, count: int) -> list[Order]:
    """Order for lamps what they were sold with, where it is still made."""
    parts = {row["part"]: row for row in _book("parts")}
    choices = {}
    for lamp in _book("lamps"):
        own = [parts[part] for part in lamp["as_sold"].split()]
        made = [it for it in own if it["status"] == "made" and it["kind"] in RENEWED]
        if made:
            choices[lamp["lamp"]] = made
    orders = []
    for lamp_id in rng.choices(sorted(choices), k=count):
        made = choices[lamp_id]
        taken = rng.sample(made, k=min(len(made), rng.choice((1, 1, 2, 3))))
        lines = tuple(Line(it["part"], _handful(rng, it["kind"])) for it in taken)
        orders.append(Order(lamp_id, rng.choice(LOW), lines))
    return orders


def _handful(rng: random.Random, kind: str) -> str:
    return str(rng.choice((1, 1, 2, 3)) if kind in BY_THE_HANDFUL else 1)


def _write(path: Path, header: tuple[str, ...], rows: list[tuple[str, ...]]) -> None:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


def main(folder: Path = HERE) -> None:
    """Write both files into a folder."""
    rng = random.Random(SEED)
    orders = _planted() + _from_sets(rng)
    orders += _renewals(rng, ORDERS - len(orders))
    rng.shuffle(orders)
    lines: list[tuple[str, ...]] = []
    key: list[tuple[str, ...]] = []
    for number, order in enumerate(orders, start=1001):
        name = f"O-{number}"
        lines += [(name, order.lamp, order.place, it.part, it.quantity) for it in order.lines]
        key += [(name, order.fault, "")] if order.fault else []
        key += [(name, it.fault, it.part) for it in order.lines if it.fault]
    _write(folder / "orders.csv", ("order", "lamp", "place", "part", "quantity"), lines)
    _write(folder / "orders_key.csv", ("order", "fault", "part"), key)
    print(f"{len(orders)} orders, {len({row[0] for row in key})} with faults, {len(key)} faults")


if __name__ == "__main__":
    main()
