"""How the desk may be run: for one person here, or for people on a network; never by mistake."""

from __future__ import annotations

from dataclasses import dataclass
from ipaddress import ip_address
from typing import TYPE_CHECKING

from wickwright.answers.sheet.one_line import one_line
from wickwright.desk.state import UNNAMED, DeskSettings

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

__all__ = ["CannotRunError", "Running", "is_loopback", "names_of", "settings_for"]

_HERE = ("127.0.0.1", "localhost", "[::1]")
_EVERYWHERE = frozenset({"0.0.0.0", "::"})  # noqa: S104 - compared with, not bound to
_DEFAULT_PORTS = frozenset({80, 443})


class CannotRunError(ValueError):
    """The desk cannot be run as asked; a line for each reason."""


@dataclass(frozen=True, slots=True)
class Running:
    """How the desk is to be run.

    Attributes
    ----------
    host : str
        Address to listen at.
    port : int
        Port to listen at; 0 takes any that is free.
    names : tuple of str
        Further names a browser may call it.
    single : bool
        Whether one person uses it without logging in, though people are known.
    person : str
        Name of that person.
    desk : str
        Where that person sits.
    units : str
        ``metric`` or ``us``.
    first_lead : str
        Who is to be let in by a secret, as a lead; blank for nobody.
    certificate, key : Path or None
        For HTTPS.
    readable : bool
        Whether it may speak plain HTTP on a network.
    """

    host: str = "127.0.0.1"
    port: int = 8737
    names: tuple[str, ...] = ()
    single: bool = False
    person: str = UNNAMED
    desk: str = "front"
    units: str = "metric"
    first_lead: str = ""
    certificate: Path | None = None
    key: Path | None = None
    readable: bool = False


def is_loopback(host: str) -> bool:
    """Tell whether only this machine reaches an address."""
    if host == "localhost":
        return True
    try:
        return ip_address(host).is_loopback
    except ValueError:
        return False


def settings_for(running: Running, *, people: bool) -> DeskSettings:
    """Return the settings of a desk that is run as asked.

    Parameters
    ----------
    running : Running
        As asked.
    people : bool
        Whether anybody may log in.

    Returns
    -------
    DeskSettings
        Without log-in where that was asked for, or where nobody may log in.

    Raises
    ------
    CannotRunError
        When callers' names or passwords would lie open; every reason.
    """
    single = running.single or not (people or running.first_lead)
    faults = [*_faults(running, single=single)]
    if faults:
        raise CannotRunError("\n".join(faults))
    return DeskSettings(
        hosts=names_of(running),
        single=one_line(running.person) or UNNAMED if single else "",
        desk=one_line(running.desk) or "front",
        tls=running.certificate is not None,
        units=running.units,
    )


def _faults(running: Running, *, single: bool) -> Iterator[str]:
    tls = running.certificate is not None
    near = is_loopback(running.host)
    if tls != (running.key is not None):
        yield "HTTPS needs a certificate and its key: give --tls-cert and --tls-key together"
    if single and not near:
        yield (
            f"without log-in the desk is for this machine only, and {running.host} is reached "
            "from others: name a first lead with --first-lead NAME, or leave --host out"
        )
    elif not near and not tls and not running.readable:
        yield (
            f"at {running.host} passwords and callers' names would go over the network for "
            "anybody to read: give --tls-cert and --tls-key, or take the risk with --plain-http"
        )
    if running.single and running.first_lead:
        yield "--single lets nobody log in, and --first-lead somebody: give one of them"


def names_of(running: Running) -> tuple[str, ...]:
    """Return what a browser may call the desk, with its port.

    Parameters
    ----------
    running : Running
        As asked, with the port it has.

    Returns
    -------
    tuple of str
        Its address, the names of this machine where it is reached there, and names given.
    """
    near = is_loopback(running.host) or running.host in _EVERYWHERE
    own = () if running.host in _EVERYWHERE else (_in_address(running.host),)
    names = dict.fromkeys((*(_HERE if near else ()), *own, *running.names))
    ports = ("", f":{running.port}") if running.port in _DEFAULT_PORTS else (f":{running.port}",)
    return tuple(f"{name.lower()}{port}" for name in names for port in ports)


def _in_address(host: str) -> str:
    return f"[{host}]" if ":" in host else host
