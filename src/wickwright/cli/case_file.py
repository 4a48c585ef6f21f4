"""The file a call is kept in: read, compared with what is given now, and written down."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from wickwright.cli.desk import UnusableError

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.plain.cases import CaseFault
    from wickwright.answers.plain.kept import Changed, Kept, Value
    from wickwright.terms.units import Units

__all__ = ["change_lines", "keeper", "kept_in", "read_json", "refuse", "refuse_faults"]


def read_json(path: Path) -> object:
    """Read a JSON file, or standard input for '-'."""
    import json  # noqa: PLC0415 - not needed for --help

    try:
        text = sys.stdin.read() if str(path) == "-" else path.read_text("utf-8")
        found: object = json.loads(text)
    except OSError as error:
        msg = f"'{path}' cannot be read: {error.strerror or error}"
        raise UnusableError(msg) from error
    except RecursionError as error:
        msg = (
            f"'{path}' cannot be used: its brackets stand deeper in each other than those of any "
            "list of answers; write one flat list, see docs/json.md"
        )
        raise UnusableError(msg) from error
    except ValueError as error:
        msg = f"'{path}' is not JSON: {error}; docs/json.md says what stands in it"
        raise UnusableError(msg) from error
    return found


def refuse(path: Path, lines: Sequence[str]) -> UnusableError:
    """Return the refusal of a file with a line for everything that is wrong with it."""
    return UnusableError("\n  ".join([f"'{path}' cannot be used:", *lines]))


def refuse_faults(path: Path, what: str, faults: Sequence[CaseFault]) -> UnusableError:
    """Return the refusal of a list of events or answers; its entries count from 1."""
    return refuse(
        path,
        [f"{f'{what} {one.event}: ' if one.event else ''}{one.what}; {one.cure}" for one in faults],
    )


def kept_in(path: Path | None, under: str) -> tuple[dict[str, object], Kept] | None:
    """Return what a file keeps; None where there is none yet.

    Parameters
    ----------
    path : Path or None
        The file.
    under : str
        Key under which what was said stands in it.

    Returns
    -------
    tuple of (dict, Kept), or None
        All of it, and what was given once and holds for all of the call.

    Raises
    ------
    UnusableError
        When it is no such file, with everything that is wrong with it.
    """
    from wickwright.answers.plain.kept import Kept, read_kept  # noqa: PLC0415 - not for --help

    if path is None or not path.exists():
        return None
    found = read_json(path)
    if not isinstance(found, dict) or under not in found:
        msg = f"'{path}' is no case that was kept by this command: name another file"
        raise UnusableError(msg)
    kept = read_kept(found)
    if not isinstance(kept, Kept):
        raise refuse(path, [f"'{one.key}': {one.what}; {one.cure}" for one in kept])
    return found, kept


def keeper(path: Path | None) -> Callable[[Plain], None]:
    """Return what writes a call down; the file takes its name when all of it is written."""

    def keep(plain: Plain) -> None:
        from wickwright.cli.output import json_text, write_bytes  # noqa: PLC0415 - as above

        if path is not None:
            write_bytes(path, (json_text(plain) + "\n").encode())

    return keep


_NAMES = {
    "elevation": "elevation",
    "hours": "hours burned since it was filled",
    "volume": "room",
    "people": "people in the room",
    "change": "air changes of the room",
    "have": "parts on the lamp",
    "lost": "parts lost",
    "wish": "wish",
    "lamps": "models it may be",
    "bought": "year it was bought",
}


def _said(field: str, value: Value, units: Units) -> str:
    from wickwright.terms.finding import Kind, Quantity  # noqa: PLC0415 - not for --help
    from wickwright.terms.units import say  # noqa: PLC0415 - not for --help

    kinds = {"elevation": Kind.ELEVATION, "volume": Kind.VOLUME, "change": Kind.AIR_CHANGE}
    if isinstance(value, tuple):
        return ", ".join(value)
    if field in kinds and isinstance(value, float):
        return say(Quantity(value, kinds[field]), units)
    return f"{value:g} h" if field == "hours" else str(value)


def change_lines(path: Path, changes: Sequence[Changed], units: Units) -> list[str]:
    """Return what is said of things that are given otherwise than the file has them."""
    lines = []
    for one in changes:
        was, now = (_said(one.field, value, units) for value in (one.was, one.now))
        back = "; name the other again to go on with it" if one.field == "wish" else ""
        lines.append(f"{_NAMES[one.field]}: '{path}' has {was}; from here {now} holds{back}")
    if lines:
        lines.append("what follows from it is worked out again, and what was said still holds")
    return lines
