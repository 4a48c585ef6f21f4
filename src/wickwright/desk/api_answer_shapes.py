"""Shapes of answers about lamps, for the OpenAPI document of the interface."""

from typing import Literal

from pydantic import JsonValue
from typing_extensions import TypedDict

from wickwright.desk.api_book_shapes import PartInShort

__all__ = ["FindingLine", "PairAnswer", "RoutesAnswer", "TownLine"]


class TownLine(TypedDict):
    """The town that was taken for a name of a place; show its `attribution` with it."""

    name: str
    country: str
    country_name: str
    region: str
    population: int
    elevation_m: float
    known: Literal["surveyed", "terrain", "disputed"]
    within_m: float | None
    attribution: str


class FindingLine(TypedDict):
    """Something found: quantities are objects of one key that ends in the unit."""

    rule: str
    severity: Literal["good", "note", "caution", "unknown", "fault", "danger"]
    parts: list[str]
    facts: dict[str, JsonValue]
    measured: JsonValue
    permitted: JsonValue
    source: str | None
    says: str
    why: str
    cure: str


# -- flames in routes ----------------------------------------------------------------------------


class DriverSaid(TypedDict):
    """A number a figure leans on: `change` is what one standard uncertainty of it does."""

    name: str
    says: str
    change: float
    source: str


class Figure(TypedDict):
    """A figure of a flame with one standard uncertainty."""

    value: float
    spread: float
    unit: str
    leans_on: list[DriverSaid]


class HotSeatLine(TypedDict):
    """Temperatures at the chimney's seat."""

    gallery_k: float
    foot_k: float


class BurningLine(TypedDict):
    """How a lamp burns, in short."""

    by: Literal["flame", "bulb", "not known"]
    light: Figure | None
    fuel: Figure | None
    heat: Figure | None
    run_time: Figure | None
    seat: HotSeatLine | None
    measure: list[str]


class RouteFlameLine(BurningLine):
    """How the lamp of a route burns, beside the lamp as it was."""

    air_to_spare_at_mark: Figure | None
    light_gain: Figure | None
    fuel_gain: Figure | None


# -- routes --------------------------------------------------------------------------------------


class ReasonLine(TypedDict):
    """Why a part is bought."""

    why: str
    other: str | None
    rule: str | None
    says: str


class BoughtPart(PartInShort):
    """A part to buy, and why."""

    reasons: list[ReasonLine]


class RouteLine(TypedDict):
    """One way: what to buy, what stays, what is put aside."""

    price: str
    buy: list[BoughtPart]
    included: list[PartInShort]
    keep: list[PartInShort]
    aside: list[PartInShort]
    dying: list[str]
    light_points: int
    light_against: str
    flame: RouteFlameLine
    findings: list[FindingLine]


class RequestLine(TypedDict):
    """The request as it was understood."""

    lamp: str
    lamp_name: str
    wish: str
    wish_title: str
    have: list[str]
    lost: list[str]
    bare: bool
    elevation_m: float
    count: int
    budget: str | None
    findings: list[FindingLine]


class BecauseLine(TypedDict):
    """A claim that stands in the way."""

    sort: str
    subject: str
    says: str


class WayOut(TypedDict):
    """What could be given up, and what that would cost."""

    give_up: str
    price: str | None
    buy: list[str]
    not_from_us: list[str]


class WhyNot(TypedDict):
    """Why there is no way."""

    says: str
    because: list[BecauseLine]
    evidence: list[FindingLine]
    blocked: list[PartInShort]
    ways_out: list[WayOut]
    complete: bool


class RoutesAnswer(TypedDict):
    """Every unbeaten way, or why there is none; `cautions` go with whatever is sold."""

    answer: Literal["routes", "impossible", "not known", "gave up"]
    request: RequestLine
    currency: str
    burnt_before: BurningLine | None
    routes: list[RouteLine]
    why_not: WhyNot | None
    looked_at: int | None
    cautions: list[str]
    town: TownLine | None


# -- two parts -----------------------------------------------------------------------------------


class Temperature(TypedDict):
    """A temperature."""

    temperature_k: float


class Service(TypedDict):
    """Temperatures in service."""

    below: Temperature
    above: Temperature


class LengthRange(TypedDict):
    """From, to; null where it is open."""

    length_m: list[float | None]


class Gap(TypedDict):
    """Room between two parts: both at the ends of their tolerances, and root sum of squares."""

    worst: LengthRange
    likely: LengthRange


class Gaps(TypedDict):
    """Room between two parts; null where nothing was measured."""

    cold: Gap | None
    hot: Gap | None


class PairAnswer(TypedDict):
    """How two parts join, whichever stands on the other."""

    below: str
    above: str
    joint: str
    verdict: str
    by_label: bool
    missing: list[str]
    finding: FindingLine
    service: Service
    room: Gaps
