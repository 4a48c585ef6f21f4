"""Bodies that programs send: what they may hold, so that the rest is refused by its place."""

from typing import Annotated, Any, Final, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, JsonValue

from wickwright.answers.sheet.one_line import one_line
from wickwright.orders.understood import MOST
from wickwright.terms.units import ELEVATION_RANGE

__all__ = [
    "NAMES",
    "BasketAsked",
    "BurnAsked",
    "CallChanged",
    "CallSent",
    "CallerSent",
    "Name",
    "PlaceAsked",
    "RoutesAsked",
    "WhichAsked",
    "WhyAsked",
    "Words",
]

_LOWEST, _HIGHEST = ELEVATION_RANGE
_NO_NUL = r"^[^\x00]*$"

Name = Annotated[str, Field(min_length=1, max_length=100)]
Names = Annotated[list[Name], Field(max_length=40)]
Words = Annotated[str, Field(max_length=4000, pattern=_NO_NUL)]
ShortWords = Annotated[str, Field(max_length=300, pattern=_NO_NUL)]
Line = Annotated[ShortWords, AfterValidator(one_line)]
"""Breaks of a line and control characters in it become blanks."""
Elevation = Annotated[float, Field(ge=_LOWEST, le=_HIGHEST, allow_inf_nan=False)]
Money = Annotated[str, Field(pattern=r"^[0-9]{1,9}(\.[0-9]{1,2})?$")]
Share = Annotated[float, Field(ge=0.2, le=1.0, allow_inf_nan=False)]


def _example(**body: Any) -> ConfigDict:
    return ConfigDict(
        extra="forbid", strict=True, frozen=True, json_schema_extra={"examples": [body]}
    )


class PlaceAsked(BaseModel):
    """Where the lamp stands: a height, or a text; sea level where neither is given."""

    model_config = _example(place="Leadville, Colorado")

    elevation_m: Elevation | None = Field(default=None, description="Above sea level.")
    place: Line | None = Field(
        default=None,
        description="A height with its unit, such as 5200ft, or a town, in place of metres.",
    )


class LampAsked(PlaceAsked):
    """A lamp and what is on it."""

    lamp: Name = Field(description="Model number.")
    have: Names = Field(default=[], description="Parts on the lamp that it was not sold with.")
    lost: Names = Field(default=[], description="Parts, or kinds of part, broken or gone.")


class RoutesAsked(LampAsked):
    """What a caller has and wants."""

    model_config = _example(lamp="WH-302", wish="renew-chimney", elevation_m=1700)

    wish: Name = Field(description="Key of a wish: GET /wishes lists them.")
    bare: bool = Field(default=False, description="True when there is nothing but `have`.")
    count: int = Field(default=1, ge=1, le=100_000, description="Lamps treated alike.")
    budget: Money | None = Field(default=None, description="Most money for one lamp.")


class RoomAsked(BaseModel):
    """A room the lamp burns in."""

    model_config = _example(volume_m3=40, people=2, time_s=14400)

    volume_m3: float = Field(gt=0, le=100_000, allow_inf_nan=False)
    lamps: int = Field(default=1, ge=1, le=100, description="Such lamps that burn there.")
    people: int = Field(default=0, ge=0, le=1000)
    time_s: float = Field(default=4 * 3600.0, gt=0, le=1e6, allow_inf_nan=False)
    air_change_per_s: float | None = Field(
        default=None, ge=0, le=1, allow_inf_nan=False, description="Left out, that of living rooms."
    )


class BurnAsked(LampAsked):
    """A lamp that burns somewhere."""

    model_config = _example(**{"lamp": "DU-401", "elevation_m": 1700, "with": ["CH-3371"]})

    with_: Names = Field(
        default=[], alias="with", description="Parts to try, and to compare with before."
    )
    bare: bool = Field(default=False, description="True when there is nothing but `have`.")
    setting: Literal["fullest", "mark"] | Share = Field(
        default="fullest",
        description="How high the wick is: `fullest` (before carbon), `mark`, or a share of the "
        "most fuel it gives.",
    )
    room: RoomAsked | None = None


class BasketLine(BaseModel):
    """A line of a basket."""

    model_config = _example(part="CH-3296", count=1)

    part: Name
    count: int = Field(default=1, ge=1, le=MOST)


class BasketAsked(PlaceAsked):
    """A basket to be checked."""

    model_config = _example(
        lamp="WH-302", elevation_m=1700, lines=[{"part": "CH-3296", "count": 1}]
    )

    order: ShortWords = Field(default="basket", min_length=1, description="Its number, told again.")
    lamp: Name | None = Field(
        default=None, description="Model the parts are for, where that is known."
    )
    lines: list[BasketLine] = Field(min_length=1, max_length=200)


class WhichAsked(PlaceAsked):
    """A lamp that is not known, and what was seen of it."""

    model_config = _example(
        wish="renew-chimney",
        lost=["chimney"],
        heard=[{"look": "burner-burns", "value": "a round wick"}],
    )

    wish: Name | None = Field(default=None, description="Left out, the model itself is asked for.")
    lost: Names = []
    heard: list[dict[str, JsonValue]] = Field(
        default=[],
        max_length=200,
        description='Each `{"look", "value"}`, `{"look", "length_m"}`, `{"lamps": [...]}` or '
        '`{"bought": 1931}`.',
    )


class WhyAsked(LampAsked):
    """A lamp that is not well, and what was asked and done."""

    model_config = _example(lamp="WH-302", complaint="dim", elevation_m=1900, events=["no dangers"])

    complaint: Name = Field(description="Key of a complaint: GET /complaints lists them.")
    hours: float | None = Field(
        default=None,
        ge=0,
        le=1000,
        allow_inf_nan=False,
        description="Burnt since the font was filled.",
    )
    room: RoomAsked | None = None
    words: Words = Field(
        default="",
        description="What the caller said, if known: dangers that it speaks of are asked first.",
    )
    events: list[dict[str, JsonValue] | Literal["no dangers"]] = Field(
        default=[],
        max_length=500,
        description='Each `"no dangers"`, `{"danger", "said"}`, `{"cleared"}`, `{"sign", "said"}` '
        'or `{"remedy", "outcome"}`, with `"bought": [...]` where another way than the cheapest '
        "was bought.",
    )


class CallerSent(BaseModel):
    """Who asks; all of it can be erased on request."""

    model_config = _example(name="Anna Berg", contact="anna@berg.example")

    name: Line = ""
    contact: Line = Field(default="", description="A telephone number, or an address for mail.")
    address: Words = Field(default="", description="Where a parcel goes.")


class CallerChanged(BaseModel):
    """What changes about who asks."""

    model_config = _example(contact="0555 0117")

    name: Line = ""
    contact: Line = ""
    address: Words = ""


class CallChanged(PlaceAsked):
    """What changes about a call; what is left out stays."""

    model_config = _example(lamp="WH-302", caller={"contact": "0555 0117"})

    words: Words = Field(default="", min_length=1)
    lamp: Name | None = None
    wish: Name | None = None
    complaint: Name | None = None
    have: Names = []
    lost: Names = []
    caller: CallerChanged = Field(default_factory=CallerChanged)


class CallSent(PlaceAsked):
    """A question handed to the desk."""

    model_config = _example(
        words="I broke the glass of my shelf lamp", lamp="WH-302", caller={"name": "Anna Berg"}
    )

    words: Words = Field(min_length=1, description="The question, in the caller's own words.")
    lamp: Name | None = None
    wish: Name | None = None
    complaint: Name | None = None
    have: Names = []
    lost: Names = []
    caller: CallerSent = Field(default_factory=CallerSent)


_BODIES: Final = (
    RoutesAsked,
    RoomAsked,
    BurnAsked,
    BasketAsked,
    BasketLine,
    WhichAsked,
    WhyAsked,
    CallChanged,
    CallSent,
    CallerSent,
)
NAMES: Final = frozenset(
    field.alias or name for body in _BODIES for name, field in body.model_fields.items()
)
"""Every key of a body, for what may have been meant by another."""
