"""The town that --at was given, on top of a page and in JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.cli.desk import UnusableError, fault_line
from wickwright.cli.layout import paragraph
from wickwright.cli.output import echo_lines, terminal_width

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.plain.answers import Plain
    from wickwright.cli.desk import Desk

__all__ = ["echo_town", "towns_of", "with_town"]


def towns_of(desk: Desk) -> TownTable:
    """Return the table of towns.

    Parameters
    ----------
    desk : Desk
        The run that is going on.

    Returns
    -------
    TownTable
        All towns that are known.

    Raises
    ------
    UnusableError
        When a file of it is missing or damaged.
    """
    read = desk.shelf.towns()
    if isinstance(read, tuple):
        lines = [fault_line(fault) for fault in read]
        msg = "\n  ".join(["the table of towns cannot be used:", *lines])
        raise UnusableError(msg, read)
    return read


def echo_town(desk: Desk) -> None:
    """Print which town was taken for a name, if one was."""
    if desk.town is None:
        return
    from wickwright.answers.places.place_words import taken_words  # noqa: PLC0415 - only for a name

    echo_lines([*paragraph(taken_words(desk.town, desk.units_of(None)), terminal_width()), ""])


def with_town(desk: Desk, plain: Mapping[str, Plain]) -> dict[str, Plain]:
    """Return a document with the town that was taken for a name, null where none was."""
    if desk.town is None:
        return {**plain, "town": None}
    from wickwright.answers.plain.places import plain_town  # noqa: PLC0415 - only for a name

    return {**plain, "town": plain_town(desk.town)}
