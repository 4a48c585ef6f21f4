"""A small fit book made by hand, and short ways to make another."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from wickwright.catalogue.records import (
    Ask,
    Book,
    Footing,
    Form,
    Fuel,
    Lamp,
    Need,
    Part,
    Port,
    Service,
    Side,
    Status,
    Support,
    Wish,
)
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.terms.dimension import parse_dimension

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = [
    "PARTS",
    "bulb_seat",
    "cap",
    "compiled_small",
    "foot",
    "lamp",
    "make_book",
    "part",
    "seat",
    "small_book",
    "wish",
]

_ROOM = {"rest": 1.0, "fitter": 1.5, "quarter-turn": 0.5, "wick": 0.0}
"""Carrying less standing diameter that fits well [mm]."""


def _port(side: Side, name: str, joint: str, diameter: float | None, height: float) -> Port:
    sizes, numbers = {}, {}
    if diameter is not None:
        grip = side is Side.CARRIES and joint == "plain-foot"
        text = f"{diameter - 1}..{diameter + 1} mm" if grip else f"{diameter} ± 0 mm"
        sizes = {"capture" if grip else "diameter": parse_dimension(text)}
        numbers = {"lugs": 3.0} if joint == "quarter-turn" else {}
    return Port(name, side, joint, height=height / 1000, sizes=sizes, numbers=numbers)


def foot(diameter: float | None, joint: str = "rest", height: float = 0) -> Port:
    """Make a standing port.

    Sizes in millimetres; None is a size that nobody has measured.
    """
    return _port(Side.STANDS, "foot", joint, diameter, height)


def seat(
    takes: str,
    diameter: float | None,
    joint: str = "rest",
    *,
    need: Need = Need.REQUIRED,
    height: float = 0,
) -> Port:
    """Make a carrying port for feet of a diameter, in millimetres."""
    hole = None if diameter is None else diameter + _ROOM.get(joint, 0.0)
    port = _port(Side.CARRIES, f"seat for {takes}", joint, hole, height)
    return replace(port, takes=tuple(takes.split()), need=need)


def bulb_seat(watts: float) -> Port:
    """Make a lampholder with a common cap."""
    return Port(
        "lampholder",
        Side.CARRIES,
        "lampholder",
        ("bulb",),
        Need.REQUIRED,
        words={"cap": "E27"},
        numbers={"limit": watts},
    )


def cap(watts: float) -> Port:
    """Make the cap of a bulb."""
    words, numbers = {"cap": "E27"}, {"limit": watts}
    return Port("cap", Side.STANDS, "lampholder", words=words, numbers=numbers)


def part(
    key: str, kind: str, *ports: Port, price: int | None = None, stock: int | None = None
) -> Part:
    """Make a part that weighs 100 g: made where it has a price, gone where it has none."""
    status = Status.GONE if price is None else Status.MADE
    return Part(
        id=key,
        name=f"{kind} {key}",
        kind=kind,
        status=status if stock is None else Status.STOCKS,
        price=price,
        stock=stock,
        mass=0.1,
        centre=0.0,
        material="brass",
        ports=ports,
    )


def wish(*asks: Ask) -> Wish:
    """Make a wish of asks."""
    return Wish("wish", "a wish", asks)


def lamp(key: str, parts: str, *, needs: str = "", service: Service = Service.OIL) -> Lamp:
    """Make a table lamp of 1931 to 1948 of the parts it was sold with."""
    needed, sold = tuple(needs.split()), tuple(parts.split())
    return Lamp(key, f"lamp {key}", "family", Form.TABLE, service, 1931, 1948, needed, sold)


def make_book(parts: Sequence[Part], *lamps: Lamp) -> Book:
    """Make a book of parts and lamps."""
    return Book(
        about={"currency": "SKD"},
        families={},
        lamps={one.id: one for one in lamps},
        parts={one.id: one for one in parts},
        wishes={},
    )


_OPTIONAL = Need.OPTIONAL
_OIL, _ELECTRIC = Service.OIL, Service.ELECTRIC
_RIM = seat("holder", 80, need=_OPTIONAL, height=30)
_PLAIN = seat("chimney", 62, "plain-foot", height=9)
_OLD = (foot(50), seat("wick", 30), seat("gallery", 70, height=40), _RIM)
_NEW = (foot(40), seat("wick", 28), seat("gallery", 66, height=40))
_NEW_BURNER = part("V", "burner", *_NEW, price=9800)


def _burner(it: Part, heat: float, least: float) -> Part:
    return replace(it, service=_OIL, heat=heat, least_chimney=least)


def _glass(it: Part, rating: float | None, height: float, *, mass: float = 0.15) -> Part:
    centre = height / 2
    return replace(
        it, material="glass", heat_rating=rating, height=height, mass=mass, centre=centre
    )


PARTS: tuple[Part, ...] = (
    replace(
        part("B", "base", seat("font", 100, height=90)),
        mass=1.5,
        centre=0.03,
        support=Support(Footing.ROUND, 0.070),
    ),
    replace(
        part("BH", "base", seat("font", 100), seat("bell", 13, need=_OPTIONAL, height=700)),
        support=Support(Footing.HUNG),
    ),
    replace(
        part("F", "font", foot(100), seat("burner reducer", 50, height=120), price=7000, stock=6),
        mass=0.6,
        centre=0.06,
        fuel=Fuel(900e-6, 0.012, 0.084),
    ),
    part("R", "reducer", foot(50), seat("burner", 40, height=14), price=1400),
    _burner(part("U", "burner", *_OLD), 820, 0.264),
    _burner(_NEW_BURNER, 780, 0.263),
    replace(_burner(_NEW_BURNER, 780, 0.263), id="VK", price=14600, includes=("W2", "GV")),
    replace(
        part(
            "E",
            "burner",
            foot(50),
            bulb_seat(60),
            seat("chimney", 62, "plain-foot", need=_OPTIONAL),
            _RIM,
            price=5600,
        ),
        service=_ELECTRIC,
    ),
    replace(part("W", "wick", foot(30), price=1650, stock=14), service=_OIL),
    replace(part("W2", "wick", foot(28), price=1350), service=_OIL),
    replace(part("GQ", "gallery", foot(70), seat("chimney", 60, "quarter-turn")), service=_OIL),
    replace(part("GP", "gallery", foot(70), _PLAIN, price=3900), service=_OIL),
    replace(part("GV", "gallery", foot(66), _PLAIN, _RIM, price=3800), service=_OIL),
    replace(
        _glass(part("CQ", "chimney", foot(60, "quarter-turn")), 1100, 0.296),
        successor="CP",
        via="GP",
    ),
    _glass(part("CP", "chimney", foot(62, "plain-foot"), price=2400), 1100, 0.296),
    replace(
        _glass(part("CT", "chimney", foot(62, "plain-foot"), price=3100), 1100, 0.371), light=12
    ),
    _glass(part("CX", "chimney", foot(62, "plain-foot"), price=800), 400, 0.296),
    part(
        "HR",
        "holder",
        foot(80),
        seat("shade", 200, "fitter", need=_OPTIONAL, height=58),
        price=2700,
    ),
    part("HA", "holder", foot(80), seat("shade", 75, need=_OPTIONAL, height=60), price=2100),
    _glass(part("SG", "shade", foot(200, "fitter"), price=7900), 1000, 0.160, mass=1.0),
    _glass(part("SB", "shade", foot(200, "fitter"), price=4500), 100, 0.160, mass=0.9),
    replace(
        part("SC", "shade", foot(75, height=110), price=4400),
        material="cloth",
        heat_rating=950,
        mass=0.2,
        centre=0.09,
    ),
    replace(part("L", "bulb", cap(60), price=440), service=_ELECTRIC, heat=60, light=160),
    replace(part("L9", "bulb", cap(100), price=520), service=_ELECTRIC, heat=100, light=220),
    replace(part("BE", "bell", foot(13), price=2800), heat_rating=1200),
    replace(part("BG", "bell", foot(13), price=1200), heat_rating=400, material="glass"),
)
"""Prices are such that most sums tell what was bought."""

_LAMPS = (
    lamp("table", "B F U W GQ CQ"),
    lamp("shaded", "B F U W GQ CQ HR SG"),
    lamp("hanging", "BH F U W GQ CQ BE", needs="bell"),
    lamp("bulb", "B F E L HR SB", service=_ELECTRIC),
)


def small_book(*others: Part) -> Book:
    """Return the small book, with other parts added or put in place of those of their number."""
    parts = {one.id: one for one in (*PARTS, *others)}
    return make_book(tuple(parts.values()), *_LAMPS)


@cache
def compiled_small() -> Compiled:
    """Return the small book ready for the route search; one for all tests of a process."""
    return compile_book(small_book())
