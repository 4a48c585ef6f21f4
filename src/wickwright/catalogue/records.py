"""The records of a fit book. Frozen, in SI units, with the printed text kept beside them."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from wickwright.catalogue.call_records import CallBook

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from wickwright.terms.dimension import Dimension

__all__ = [
    "KINDS",
    "Ask",
    "Book",
    "Family",
    "Footing",
    "Form",
    "Fuel",
    "Lamp",
    "Measure",
    "Need",
    "Part",
    "Port",
    "Service",
    "Side",
    "Signature",
    "Status",
    "Support",
    "Wish",
]

KINDS: dict[str, str] = {
    "base": "carries the font: table, shelf, bracket, hanging frame or floor stand",
    "font": "the fuel vessel",
    "reducer": "lets a burner of one collar stand on a font of another",
    "burner": "the point of combustion, or an electric body in its place",
    "wick": "the tubular or flat wick",
    "spreader": "the flame spreader on the inner tube",
    "gallery": "the detachable ring that seats the chimney",
    "mantle": "the web that gives the light",
    "chimney": "the glass tube that makes the draft",
    "holder": "the ring or the open arms that carry a shade",
    "shade": "glass, cloth or parchment",
    "bell": "the smoke bell over a hanging or bracket lamp",
    "bulb": "the electric lamp",
    "tool": "used on a part and not mounted: wick cleaners and trimmers",
}
"""What a part can be. A lamp carries at most one part of each kind."""


class Status(StrEnum):
    """Whether a part can still be had."""

    MADE = "made"
    STOCKS = "while stocks last"
    GONE = "no longer made"


class Service(StrEnum):
    """What gives the light."""

    OIL = "oil"
    ELECTRIC = "electric"


class Form(StrEnum):
    """How a lamp stands or hangs."""

    TABLE = "table"
    SHELF = "shelf"
    BRACKET = "bracket"
    HANGING = "hanging"
    FLOOR = "floor"


class Side(StrEnum):
    """Which half of a joint a port is."""

    CARRIES = "carries"
    STANDS = "stands"


class Need(StrEnum):
    """Whether a carrying port must be filled."""

    REQUIRED = "required"
    OPTIONAL = "optional"
    CARE = "care"


class Footing(StrEnum):
    """What a base stands on."""

    ROUND = "round"
    FEET = "feet"
    HUNG = "hung"
    FIXED = "fixed"


@dataclass(frozen=True, slots=True)
class Support:
    """How a base meets the ground.

    Attributes
    ----------
    footing : Footing
        Round rim, separate feet, hung from above or fixed to a wall.
    radius : float
        Radius of the rim, or of the circle through the feet [m]; 0 when hung or fixed.
    feet : int
        Number of feet; 0 unless ``footing`` is feet.
    """

    footing: Footing
    radius: float = 0.0
    feet: int = 0


@dataclass(frozen=True, slots=True)
class Fuel:
    """The fuel space of a font.

    Attributes
    ----------
    volume : float
        What it holds when full [m3].
    floor : float
        Height of its bottom above the font's own foot [m].
    depth : float
        From bottom to full line [m].
    """

    volume: float
    floor: float
    depth: float


@dataclass(frozen=True, slots=True)
class Port:
    """One half of a joint.

    Attributes
    ----------
    name : str
        Unique within the part.
    side : Side
        ``carries`` (something stands on it) or ``stands`` (it stands on something).
    joint : str
        Which joint rule judges it.
    takes : tuple of str
        Kinds a carrying port accepts; empty on the standing side.
    need : Need
        Whether a carrying port must be filled.
    height : float
        Joint plane above the part's own foot [m].
    label : str
        The maker's size label, compared where a dimension is unknown.
    sizes : mapping of str to Dimension
        Lengths by column name: diameter, capture, pitch, reach.
    words : mapping of str to str
        Plain words by column name: form, hand, cap.
    numbers : mapping of str to float
        Plain numbers by column name: lugs, angle [rad], limit [W].
    note : str
        How it was measured.
    printed : mapping of str to str
        ``height`` as the maker printed it, where the metres would not give the text back.
    """

    name: str
    side: Side
    joint: str
    takes: tuple[str, ...] = ()
    need: Need = Need.OPTIONAL
    height: float = 0.0
    label: str = ""
    sizes: Mapping[str, Dimension] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    numbers: Mapping[str, float] = field(default_factory=dict)
    note: str = ""
    printed: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of how a part burns.

    Attributes
    ----------
    value : float
        The value [SI unit of the property].
    spread : float
        One standard uncertainty [SI unit of the property].
    source : str
        Key of the book's sources, or ``assumption``.
    note : str
        How it was measured, or why it is assumed.
    printed : tuple of str
        Value and spread as the book has them.
    """

    value: float
    spread: float
    source: str
    note: str = ""
    printed: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True)
class Part:
    """A part the firm sells or sold.

    Attributes
    ----------
    id, name, kind : str
        Number, plain name, one of :data:`KINDS`.
    first, last : int or None
        Years made; ``last`` None while it still is.
    status : Status
        Whether it can be had.
    successor, via : str
        Part that replaced it, and the converter needed where the joint changed; or blank.
    price : int or None
        In the book's smallest coin; None where none is known.
    stock : int or None
        Pieces on the shelf; None where it is not counted.
    mass, height, centre : float or None
        Mass [kg], height [m], centre of mass above the part's own foot [m].
    material : str
        Key of the materials table.
    heat_rating : float or None
        The heat it stands in its place [W]; None where the maker states none.
    service : Service or None
        The service it belongs to; None when both.
    heat : float
        Heat a burner gives off at full flame, or a bulb's wattage [W].
    least_chimney : float or None
        Least chimney height at sea level that a burner draws well with [m].
    light : int
        Light points, hundredths of a natural-log unit: 10 points are about 10 % more light.
    style : str
        ``period``, ``modern`` or blank for both.
    support : Support or None
        How a base stands.
    fuel : Fuel or None
        The fuel space.
    ports : tuple of Port
        Its halves of joints.
    includes : tuple of str
        Parts that come with it in place.
    note, source : str
        Free words; key of the book's sources.
    flame : mapping of str to Measure
        How it burns, by property: :data:`wickwright.catalogue.measures.MEASURES`.
    printed : mapping of str to str
        Lengths by column name as the maker printed them, such as ``2 5/8 in``, where the
        metres would not give the text back; ``light`` and ``heat`` where a 0 is written.
    carries, stands : tuple of Port
        Of its ports, those something may stand on and those it may stand by.
    """

    id: str
    name: str
    kind: str
    first: int | None = None
    last: int | None = None
    status: Status = Status.MADE
    successor: str = ""
    via: str = ""
    price: int | None = None
    stock: int | None = None
    mass: float | None = None
    height: float | None = None
    centre: float | None = None
    material: str = ""
    heat_rating: float | None = None
    service: Service | None = None
    heat: float = 0.0
    least_chimney: float | None = None
    light: int = 0
    style: str = ""
    support: Support | None = None
    fuel: Fuel | None = None
    ports: tuple[Port, ...] = ()
    includes: tuple[str, ...] = ()
    note: str = ""
    source: str = ""
    flame: Mapping[str, Measure] = field(default_factory=dict)
    printed: Mapping[str, str] = field(default_factory=dict)

    carries: tuple[Port, ...] = field(init=False, repr=False, compare=False, default=())
    stands: tuple[Port, ...] = field(init=False, repr=False, compare=False, default=())

    def __post_init__(self) -> None:
        by_side = {side: tuple(port for port in self.ports if port.side is side) for side in Side}
        object.__setattr__(self, "carries", by_side[Side.CARRIES])
        object.__setattr__(self, "stands", by_side[Side.STANDS])


@dataclass(frozen=True, slots=True)
class Lamp:
    """A model the firm ever sold: the parts it left the works with, how many are in use."""

    id: str
    name: str
    family: str
    form: Form
    service: Service
    first: int | None
    last: int | None
    needs: tuple[str, ...]
    as_sold: tuple[str, ...]
    note: str = ""
    in_use: int | None = None


@dataclass(frozen=True, slots=True)
class Family:
    """A family of lamps."""

    id: str
    name: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Ask:
    """One thing a wish asks for.

    Attributes
    ----------
    ask : str
        ``renew``, ``present``, ``absent``, ``only``, ``never``, ``brighter`` or ``service``.
    kind : str
        Kind of part it speaks of; blank when of the lamp.
    field, test, value : str
        For ``only`` and ``never``: a column of the part, ``is``, ``in``, ``at least`` or
        ``at most``, and what it is compared with.
    says : str
        The ask in words an adviser can read out.
    """

    ask: str
    kind: str = ""
    field: str = ""
    test: str = ""
    value: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Wish:
    """What a caller wants, as data.

    Attributes
    ----------
    id, title : str
        Its key, and the wish in words.
    asks : tuple of Ask
        What must hold.
    words : tuple of str
        What callers say who want it.
    """

    id: str
    title: str
    asks: tuple[Ask, ...]
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Signature:
    """Who answers for a change of the book's numbers.

    Attributes
    ----------
    day : date
        When it was signed.
    name, reason : str
        Who signed it, and why.
    what : str
        What was changed, and how well it foretold; may be blank.
    """

    day: date
    name: str
    reason: str
    what: str = ""


@dataclass(frozen=True, slots=True)
class Book:
    """A whole fit book, already checked.

    Attributes
    ----------
    about : mapping of str to str
        Maker, edition, currency and the like.
    families, lamps, parts, wishes : mapping by id
        The records.
    calls : CallBook
        What tells lamps apart, and what goes wrong with them.
    sources : mapping of str to str
        The book's own sources, key to title.
    revisions : tuple of Signature
        Changes of its numbers that somebody answers for, oldest first.
    """

    about: Mapping[str, str]
    families: Mapping[str, Family]
    lamps: Mapping[str, Lamp]
    parts: Mapping[str, Part]
    wishes: Mapping[str, Wish]
    calls: CallBook = field(default_factory=CallBook)
    sources: Mapping[str, str] = field(default_factory=dict)
    revisions: tuple[Signature, ...] = ()

    @property
    def currency(self) -> str:
        """What money is printed in."""
        return self.about.get("currency", "")
