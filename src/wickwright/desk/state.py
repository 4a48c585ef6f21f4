"""What every page of the desk stands on: the store, the fit books, the clock and the settings."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta
from typing import TYPE_CHECKING, Final, cast

if TYPE_CHECKING:
    from collections.abc import Callable
    from datetime import datetime

    from starlette.requests import HTTPConnection

    from wickwright.answers.places.town_table import TownTable
    from wickwright.answers.sheet.desk_store import Store
    from wickwright.catalogue.faults import Fault, RawTable
    from wickwright.desk.open_books import OpenBooks
    from wickwright.desk.passwords import Passwords

__all__ = ["UNNAMED", "DeskSettings", "DeskState", "state_of"]

UNNAMED: Final = "adviser"
"""Who works without log-in where no name was given; no letter is signed with it."""


@dataclass(frozen=True, slots=True)
class DeskSettings:
    """How the desk is run.

    Attributes
    ----------
    hosts : tuple of str
        What a browser may call this desk, with the port: ``127.0.0.1:8737``.
    single : str
        Name of the one who works here without logging in; blank where people log in.
    desk : str
        Where that one sits, and where a new person sits if nothing else is said.
    tls : bool
        Whether the desk speaks HTTPS.
    units : str
        ``metric`` or ``us``.
    idle : timedelta
        After this long unused a session ends.
    lasts : timedelta
        After this long a session ends in any case.
    """

    hosts: tuple[str, ...]
    single: str = ""
    desk: str = "front"
    tls: bool = False
    units: str = "metric"
    idle: timedelta = timedelta(hours=4)
    lasts: timedelta = timedelta(hours=14)


@dataclass(frozen=True, slots=True)
class DeskState:
    """Everything a page may use of the world.

    Attributes
    ----------
    store : Store
        Calls, fit books, people.
    books : OpenBooks
        Fit books ready for questions.
    clock : callable
        The time, in UTC.
    token : callable
        A new secret of 256 bits, fit for an address or a form.
    passwords : Passwords
        Makes and tries the hashes of passwords.
    read_upload : callable
        The tables of an uploaded fit book by its file's name and bytes, or what is wrong with it.
    towns : callable
        Towns with their elevations, read once; None where they cannot be.
    settings : DeskSettings
        How the desk is run.
    form_key : str
        What forms carry where nobody logs in.
    """

    store: Store
    books: OpenBooks
    clock: Callable[[], datetime]
    token: Callable[[], str]
    passwords: Passwords
    read_upload: Callable[[str, bytes], tuple[RawTable, ...] | tuple[Fault, ...]]
    towns: Callable[[], TownTable | None]
    settings: DeskSettings
    form_key: str = field(repr=False)


def state_of(connection: HTTPConnection) -> DeskState:
    """Return what the pages of an application stand on.

    Parameters
    ----------
    connection : HTTPConnection
        A request.

    Returns
    -------
    DeskState
        Of its application.
    """
    return cast("DeskState", connection.app.state.desk)
