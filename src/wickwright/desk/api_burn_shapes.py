"""Shapes of answers about flames, for the OpenAPI document of the interface."""

from typing import Literal

from pydantic import JsonValue
from typing_extensions import TypedDict

from wickwright.desk.api_answer_shapes import FindingLine, TownLine
from wickwright.desk.api_book_shapes import PartInShort

__all__ = ["BurnAnswer"]

Measured = dict[str, JsonValue]
"""A figure: its value under the key of its quantity, then `spread` and `leans_on`."""


class Standing(TypedDict):
    """Where the lamp stands."""

    elevation_m: float
    pressure_pa: float


class InputLine(TypedDict):
    """A number the flame was computed from, in SI units."""

    name: str
    what: str
    value: float | None
    spread: float
    source: str
    part: str | None
    assumed: bool


class Burning(TypedDict):
    """How a lamp burns."""

    answer: Literal["burns", "on a bulb", "not known"]
    place: Standing
    parts: list[PartInShort]
    setting: str | float | None
    figures: dict[str, Measured] | None
    light: Measured | None
    inputs: list[InputLine]
    measure: list[str]
    findings: list[FindingLine]


class Course(TypedDict):
    """A room over time: gases as shares of the air."""

    time_s: list[float]
    carbon_dioxide: list[float]
    oxygen: list[float]
    water: list[float]
    fuel_of_a_lamp_kg_per_s: list[float]
    light_of_a_lamp_lm: list[float]


class Assumption(TypedDict):
    """What was taken because nobody said."""

    what: str
    value: JsonValue
    source: str


class RoomLine(TypedDict):
    """What lamps do to a room."""

    volume_m3: float
    lamps: int
    people: int
    time_s: float
    air_change_per_s: float
    figures: dict[str, Measured]
    course: Course
    assumptions: list[Assumption]
    findings: list[FindingLine]


class NearLine(TypedDict):
    """What wood must keep from the lamp."""

    keep_above: Measured
    keep_beside: Measured
    findings: list[FindingLine]


class BurnAnswer(Burning):
    """How a lamp burns where it stands; `before` is without the parts tried."""

    lamp: str
    before: Burning | None
    room: RoomLine | None
    near: NearLine | None
    calibration: None
    cautions: list[str]
    town: TownLine | None
