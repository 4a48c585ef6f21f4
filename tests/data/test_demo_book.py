from __future__ import annotations

import csv
from copy import deepcopy
from typing import TYPE_CHECKING

import pytest

from wickwright.catalogue.faults import RawTable
from wickwright.catalogue.reading import read_book
from wickwright.catalogue.records import Book, Part, Port
from wickwright.data.demo import plant_orders
from wickwright.data.demo.consistency import PROMISED, canonical, counts, faults_of_demo
from wickwright.data.demo.nominal_fit import HERE, Demo, load, millimetres
from wickwright.fit.assemble import assemble
from wickwright.fit.joiner import Joiner
from wickwright.fit.joints.verdict import ACCEPTED, Fit
from wickwright.fit.settings import Settings

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

JOINER = Joiner(Settings())


def _tables() -> list[RawTable]:
    tables = []
    for path in sorted((HERE / "book").glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            header, *rows = csv.reader(file)
        numbered = tuple((at, tuple(row)) for at, row in enumerate(rows, start=2))
        tables.append(RawTable(path.stem, tuple(header), numbered))
    return tables


@pytest.fixture(scope="module")
def book() -> Book:
    """Return the demo book as the program reads it."""
    found = read_book(_tables())
    assert isinstance(found, Book), found
    return found


@pytest.fixture(scope="module")
def demo() -> Demo:
    """Return the demo as the consistency check reads it."""
    return load()


def test_the_demo_keeps_its_promises(demo: Demo) -> None:
    """The demo would hold a lamp, a part or an order that contradicts itself."""
    assert faults_of_demo(demo) == []


def test_the_demo_is_as_large_as_promised(demo: Demo) -> None:
    """The demo would have shrunk below what its users were told."""
    held = counts(demo)
    assert {name: held[name] >= least for name, least in PROMISED.items()} == dict.fromkeys(
        PROMISED, True
    )


def test_orders_are_planted_again_byte_for_byte(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Orders and key would no longer be what the script beside them plants."""
    plant_orders.main(tmp_path)
    assert capsys.readouterr().out == "200 orders, 89 with faults, 92 faults\n"
    for name in ("orders.csv", "orders_key.csv"):
        assert (tmp_path / name).read_bytes() == (HERE / name).read_bytes()


def test_every_kind_of_fault_is_planted_three_times(demo: Demo) -> None:
    """A fault that the desk must find could go untried, or a misspelt one be never found."""
    planted = [row["fault"] for row in demo.key]
    assert set(planted) == set(plant_orders.FAULTS)
    assert [fault for fault in plant_orders.FAULTS if planted.count(fault) < 3] == []


def _set(table: str, key: str, column: str, value: str) -> Callable[[Demo], None]:
    def change(demo: Demo) -> None:
        first = "lamp" if table == "lamps" else "part"
        rows = [row for row in demo.tables[table] if row[first] == key]
        assert rows, key
        for row in rows:
            row[column] = value

    return change


def _repeat_last_part(demo: Demo) -> None:
    demo.tables["parts"].append(demo.tables["parts"][-1])


def _change(table: str, column: str, value: str, **row: str) -> Callable[[Demo], None]:
    """Return how to change one cell of the rows with these cells; they are dropped if blank."""

    def change(demo: Demo) -> None:
        held = demo.tables[table]
        found = [one for one in held if all(one[name] == cell for name, cell in row.items())]
        assert found, row
        for one in found:
            if column:
                one[column] = value
            else:
                held.remove(one)

    return change


def _make_lamps_alike(demo: Demo) -> None:
    demo.lamps["DU-402"]["as_sold"] = demo.lamps["DU-401"]["as_sold"]


def _forget_complaints(demo: Demo) -> None:
    del demo.tables["complaints"][9:]


def _forget_a_font(demo: Demo) -> None:
    kept = [row for row in demo.tables["marks"] if row["part"] != "FO-3210"]
    demo.tables["marks"][:] = kept


def _forget_a_family(demo: Demo) -> None:
    demo.tables["families"][:] = demo.tables["families"][:5]


def _key_a_part_that_was_not_ordered(demo: Demo) -> None:
    demo.key.append({"order": "O-1001", "fault": "dead", "part": "CH-1296"})


def _call_a_known_part_unknown(demo: Demo) -> None:
    demo.key.append({"order": "O-1050", "fault": "unknown-part", "part": "GA-2450"})


SPOILED: dict[str, tuple[Callable[[Demo], None], str]] = {
    "too few": (_forget_a_family, "5 families, at least 6 are promised"),
    "twice": (_repeat_last_part, "parts: TO-6200 stands twice"),
    "does not mate": (
        _set("ports", "FO-6130", "pitch", "20 tpi"),
        "TU-604: BU-6200 goes nowhere as sold",
    ),
    "empty port": (
        _set("lamps", "TU-604", "as_sold", "BA-6130 FO-6130 BU-6200 CH-6160"),
        "TU-604: nothing on the wick tube of BU-6200",
    ),
    "without its bell": (
        _set("lamps", "DU-401", "needs", "bell"),
        "DU-401 needs a bell and is sold without one",
    ),
    "years": (
        _set("parts", "FO-1150", "to", "1911"),
        "TY-102 and its FO-1150 were never made in the same year",
    ),
    "centre": (
        _set("parts", "CH-3296", "centre", "297 mm"),
        "CH-3296: the centre of mass is not inside its height",
    ),
    "mass": (_set("parts", "CH-3296", "mass", "0"), "CH-3296 weighs nothing"),
    "price": (_set("parts", "CH-3371", "price", ""), "CH-3371 is made and has no price"),
    "last year": (
        _set("parts", "CH-3371", "to", "2020"),
        "CH-3371 is made, and its last year does not say so",
    ),
    "stock": (
        _set("parts", "GA-2410", "stock", ""),
        "GA-2410 lasts while stocks last, and its stock is not counted",
    ),
    "heirs": (
        _set("parts", "CH-3296", "successor", "CH-2296"),
        "the successors of CH-3296 do not end: CH-3296 CH-2296 CH-3296",
    ),
    "converter": (_set("parts", "BU-2100", "via", "RE-9"), "BU-2100: there is no converter RE-9"),
    "look-alike": (
        _set("parts", "SH-1989", "heat_rating", "1000"),
        "SH-1989 would serve wherever SH-1980 does",
    ),
    "tips": (_set("parts", "BA-3110", "radius", "10 mm"), "DU-401 tips as sold at 4.55 degrees"),
    "stands": (
        _set("parts", "BA-2135", "radius", "200 mm"),
        "WH-302 stands with a glass shade",
    ),
    "draft": (
        _set("parts", "BU-5100", "least_chimney", "310 mm"),
        "SO-501: its chimney CH-5310 serves to 214 m",
    ),
    "scenario": (
        _set("parts", "CH-3296", "height", "371 mm"),
        "CH-3296 serves WH-302 at 1700 m",
    ),
    "port": (
        _set("parts", "FO-6130", "height", "60 mm"),
        "FO-6130: the collar is not inside its height",
    ),
    "clean": (
        _set("parts", "GA-2450", "status", "while stocks last"),
        "O-1050 is clean and orders GA-2450, which is not plentiful",
    ),
    "unknown": (
        _call_a_known_part_unknown,
        "O-1050: GA-2450 is known or is not in the key",
    ),
    "a bell round the top of its chimney": (
        _change("ports", "height", "520 mm", part="BA-2155", port="hook"),
        "WH-306: its bell BE-2100 hangs -35 mm above its chimney",
    ),
    "measured": (
        _change("marks", "value", "110 mm", part="BA-3110", look="base-height"),
        "BA-3110: base-height is marked 110 mm and measures 104.0 mm",
    ),
    "fitter": (
        _set("ports", "SH-0980", "diameter", "4 in"),
        "SH-0980: shade-fitter is marked 98.4 mm and measures 101.6 mm",
    ),
    "seen": (
        _change("marks", "value", "sharp", part="FO-1110", look="collar-crests"),
        "FO-1110: collar-crests is marked sharp, and its rows say round",
    ),
    "nothing to measure": (
        _change("looks", "way", "measure", look="base-plate"),
        "nothing says what base-plate measures",
    ),
    "no mark": (_forget_a_font, "FO-3210 has no mark"),
    "alike": (_make_lamps_alike, "nothing tells DU-401 from DU-402"),
    "in use": (
        _set("lamps", "SO-501", "in_use", ""),
        "nobody knows how many of SO-501 are in use",
    ),
    "no way to a cause": (
        _change("shows", "", "", cause="bulb-dead"),
        "no complaint leads to the cause bulb-dead",
    ),
    "danger": (
        _change("signs", "danger", "", danger="unwell"),
        "no sign raises the danger unwell",
    ),
    "complaints": (_forget_complaints, "only 9 complaints"),
    "words": (
        _change("complaints", "words", "dark; dim", complaint="dim"),
        "callers have too few words for the complaint dim",
    ),
    "one cause": (
        _change("shows", "", "", cause="shade-close"),
        "the complaint shade-brown has too few causes of its own",
    ),
    "weights": (
        _change("causes", "weight", "90", cause="something-else"),
        "the causes of DU-401 weigh 207 of a hundred",
    ),
    "key": (
        _key_a_part_that_was_not_ordered,
        "the key names CH-1296 in O-1001, which is not there",
    ),
}


@pytest.mark.parametrize("name", SPOILED)
def test_a_spoiled_demo_is_told(demo: Demo, name: str) -> None:
    """The consistency check would let this mistake through."""
    change, fault = SPOILED[name]
    spoiled = Demo(deepcopy(demo.tables), demo.orders, list(demo.key))
    change(spoiled)
    assert fault in faults_of_demo(spoiled)


def test_needless_quotes_are_not_canonical() -> None:
    """The tables could be written in a way that a program writing them back would change."""
    assert canonical('a,"b"\r\n"c, d",\n') == 'a,b\n"c, d",\n'


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("61.8 ± 0.3 mm", (61.8, 61.8)),
        ("49.50 +0.10/-0.00 mm", (49.5, 49.5)),
        ("2 5/8 in", (66.675, 66.675)),
        ("71.5..74.5 mm", (71.5, 74.5)),
        ("3 13/16 to 3 31/32 in", (96.8375, 100.80625)),
    ],
)
def test_sizes_are_read_as_printed(text: str, ends: tuple[float, float]) -> None:
    """The consistency check would compare sizes that nobody printed."""
    assert millimetres(text) == pytest.approx(ends, abs=1e-9)


def test_the_program_reads_the_book(book: Book) -> None:
    """The demo would not open, or open as another maker's."""
    assert (book.about["maker"], book.currency) == ("Skerry Lampworks", "SKD")
    assert (len(book.lamps), len(book.parts)) == (42, 228)


def test_every_lamp_goes_together_by_the_joint_rules(book: Book) -> None:
    """A lamp would be refused in the very state in which it left the works."""
    refused = {}
    for lamp in book.lamps.values():
        built = assemble([book.parts[part] for part in lamp.as_sold], JOINER)
        fits = {
            child.part.id: JOINER.joined(it.part, child.on, child.part, child.by).fit
            for it, child in built.joints()
            if child.on and child.by
        }
        bad = [part for part, fit in fits.items() if fit not in ACCEPTED]
        if built.loose or bad:
            refused[lamp.id] = (built.loose, bad)
    assert refused == {}


def _port(part: Part, name: str) -> Port:
    return next(port for port in part.carries if port.name == name)


REFUSED = (
    ("CH-3299", "GA-2450", "seat", Fit.NOT),
    ("BU-6100", "FO-3210", "collar", Fit.NOT),
    ("BU-3200", "FO-6110", "collar", Fit.NOT),
    ("BU-5110", "FO-1110", "collar", Fit.NOT),
    ("BU-2100", "FO-5110", "collar", Fit.NOT),
    ("WI-2190", "BU-2200", "wick tube", Fit.NOT),
    ("WI-2190", "BU-1100", "wick tube", Fit.NOT),
    ("WI-2100", "BU-3200", "wick tube", Fit.NOT),
    ("WI-6190", "BU-6100", "wick tube", Fit.NOT),
    ("HO-1073", "BU-2200", "rim", Fit.NOT),
    ("HO-2198", "BU-1100", "rim", Fit.NOT),
    ("GA-2450", "BU-3200", "basket", Fit.NOT),
    ("MA-2300", "GA-3430", "mantle ring", Fit.NOT),
    ("SH-0980", "HO-2128", "arms", Fit.NOT),
    ("LB-1440", "BU-7200", "lampholder", Fit.NOT),
    ("LB-2799", "BU-7200", "lampholder", Fit.NOT),
    ("CH-3301", "GA-2450", "seat", Fit.UNKNOWN),
    ("SH-1987", "HO-2198", "ring", Fit.UNKNOWN),
    ("WI-3190", "BU-3200", "wick tube", Fit.UNKNOWN),
    ("BU-2100", "FO-1160", "collar", Fit.UNKNOWN),
)
"""Part, what it is tried on, where, and what must be said."""


@pytest.mark.parametrize(("part", "on", "port", "fit"), REFUSED)
def test_what_looks_right_is_refused(book: Book, part: str, on: str, port: str, fit: Fit) -> None:
    """A part that looks right and is not would be sold."""
    carrier = book.parts[on]
    best = JOINER.best(carrier, _port(carrier, port), book.parts[part])
    assert best is not None
    assert best[1].fit is fit


@pytest.mark.parametrize(
    ("part", "on", "port"),
    [
        ("BU-1100", "FO-1150", "collar"),
        ("CH-3305", "GA-2450", "seat"),
        ("SH-1283", "HO-2128", "arms"),
    ],
)
def test_a_stamp_settles_what_was_never_measured(book: Book, part: str, on: str, port: str) -> None:
    """Parts known by their stamp only would be refused, or taken as if they were measured."""
    carrier = book.parts[on]
    best = JOINER.best(carrier, _port(carrier, port), book.parts[part])
    assert best is not None
    assert (best[1].fit, best[1].by_label) == (Fit.FITS, True)
