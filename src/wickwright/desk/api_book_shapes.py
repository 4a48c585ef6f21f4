"""Shapes of what the interface says of the fit book, for its OpenAPI document."""

from typing import Literal

from typing_extensions import TypedDict

__all__ = [
    "Amounts",
    "BookState",
    "ComplaintList",
    "LampList",
    "LampRecord",
    "PartInShort",
    "PartList",
    "PartRecord",
    "WishList",
]

StatusWord = Literal["made", "while stocks last", "no longer made"]


class PartInShort(TypedDict):
    """A part: `price` is decimal text in the book's currency, `stock` null where not counted."""

    part: str
    name: str
    kind: str
    status: StatusWord
    price: str | None
    stock: int | None


class Amounts(TypedDict):
    """How many records a fit book holds."""

    lamps: int
    parts: int
    wishes: int
    complaints: int


class BookState(TypedDict):
    """A revision of the fit book: times are RFC 3339 in UTC."""

    revision: str
    name: str
    loaded: str
    in_force: str | None
    currency: str
    about: dict[str, str]
    counts: Amounts


class LampLine(TypedDict):
    """A lamp in a list."""

    lamp: str
    name: str
    family: str
    form: str
    service: Literal["oil", "electric"]
    first: int | None
    last: int | None


class _Page(TypedDict):
    revision: str
    total: int
    page: int
    size: int


class LampList(_Page):
    """A page of lamps."""

    lamps: list[LampLine]


class PartList(_Page):
    """A page of parts."""

    parts: list[PartInShort]


class WishAsk(TypedDict):
    """One thing a wish asks for, in words."""

    ask: str
    kind: str | None
    says: str


class WishLine(TypedDict):
    """Something a caller can want."""

    wish: str
    title: str
    asks: list[WishAsk]
    words: list[str]


class WishList(_Page):
    """A page of wishes."""

    wishes: list[WishLine]


class ComplaintLine(TypedDict):
    """Something a caller can complain of."""

    complaint: str
    says: str
    words: list[str]


class ComplaintList(_Page):
    """A page of complaints."""

    complaints: list[ComplaintLine]


class LampRecord(TypedDict):
    """A lamp: `as_sold` is what it left the works with."""

    lamp: str
    name: str
    family: str
    form: str
    service: Literal["oil", "electric"]
    first: int | None
    last: int | None
    needs: list[str]
    as_sold: list[PartInShort]
    note: str
    in_use: int | None


class PortLine(TypedDict):
    """One half of a joint; `fits` are parts that fit it by the joint alone."""

    port: str
    side: Literal["carries", "stands"]
    joint: str
    takes: list[str]
    fits: list[str]


class MarkLine(TypedDict):
    """A mark by which a part is known."""

    look: str
    value: str
    confused_with: str | None


class SuccessionStep(TypedDict):
    """One part after another; `via` is the converter where the joint changed."""

    old: str
    new: str
    via: str | None
    changes_joint: bool


class PartSuccession(TypedDict):
    """What replaced a part; `heir` is the first successor that can be had."""

    steps: list[SuccessionStep]
    heir: PartInShort | None


class PartRecord(PartInShort):
    """A part: as the book prints it, what fits it, and what replaced it."""

    as_printed: dict[str, str]
    includes: list[str]
    ports: list[PortLine]
    marks: list[MarkLine]
    sold_on: list[str]
    replaced_by: PartSuccession
