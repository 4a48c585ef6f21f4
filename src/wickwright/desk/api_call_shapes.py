"""Shapes of calls handed to the desk, for the OpenAPI document of the interface."""

from typing import Literal

from typing_extensions import TypedDict

__all__ = ["CallAnswer", "CallMade"]


class CallMade(TypedDict):
    """A call that was begun; times are RFC 3339 in UTC."""

    call: int
    version: int
    state: Literal["open", "closed"]
    desk: str
    revision: str
    opened: str
    changed: str


class CallerLine(TypedDict):
    """Who asks; blank once erased."""

    name: str
    contact: str
    address: str


class CallAnswer(CallMade):
    """A call as it stands: what was asked, and how it ended."""

    words: str
    lamp: str | None
    wish: str | None
    complaint: str | None
    place: str | None
    elevation_m: float | None
    have: list[str]
    lost: list[str]
    caller: CallerLine
    outcome: str | None
