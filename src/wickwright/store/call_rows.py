"""Calls, steps, photographs and answers as rows, and back."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, cast

import sqlalchemy as sa

from wickwright.answers.sheet.call_record import (
    Call,
    Caller,
    CallLine,
    CallState,
    Closing,
    Given,
    Photo,
    Trace,
    plain_said,
    read_said,
)
from wickwright.store.column_types import keepable, keepable_plain
from wickwright.store.folding import parts_of, search_text
from wickwright.store.schema import call_parts, calls, fingerprint

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from wickwright.answers.plain.answers import Plain
    from wickwright.answers.sheet.call_record import Said

__all__ = [
    "call_of",
    "closing_plain",
    "given_of",
    "keepable_caller",
    "keepable_closing",
    "keepable_said",
    "known_number",
    "line_of",
    "parts_noted",
    "photo_of",
    "read_call",
    "trace_of",
    "values_of",
    "write_parts",
]

Row = sa.RowMapping
_LARGEST = 2**31 - 1


def keepable_said(said: Said) -> Said:
    """Return what stands on a sheet as a store keeps it."""
    return read_said(cast("dict[str, Plain]", keepable_plain(plain_said(said))))


def keepable_caller(caller: Caller) -> Caller:
    """Return who called as a store keeps it."""
    return Caller(keepable(caller.name), keepable(caller.contact), keepable(caller.address))


def closing_plain(closing: Closing) -> dict[str, Plain]:
    """Return how a call ended as plain data."""
    return {**asdict(closing), "causes": list(closing.causes)}


def keepable_closing(closing: Closing) -> Closing:
    """Return how a call ended as a store keeps it."""
    kept = _closing(cast("dict[str, Plain]", keepable_plain(closing_plain(closing))))
    return kept or closing


def _closing(plain: Mapping[str, Plain] | None) -> Closing | None:
    if plain is None:
        return None
    causes = cast("list[str]", plain["causes"])
    return Closing(
        str(plain["outcome"]), tuple(causes), str(plain["confirmed"]), str(plain["note"])
    )


def values_of(call: Call) -> dict[str, object]:
    """Return the columns of a call, without its number."""
    return {
        "version": call.version,
        "state": str(call.state),
        "desk": call.desk,
        "adviser": call.adviser,
        "opened": call.opened,
        "changed": call.changed,
        "revision": call.revision,
        "name": call.caller.name,
        "contact": call.caller.contact,
        "address": call.caller.address,
        "said": plain_said(call.said),
        "closing": None if call.closing is None else closing_plain(call.closing),
        "search": search_text(call.caller, call.said),
    }


def call_of(row: Row) -> Call:
    """Return the call of a row."""
    return Call(
        number=row["number"],
        version=row["version"],
        state=CallState(row["state"]),
        desk=row["desk"],
        adviser=row["adviser"],
        opened=row["opened"],
        changed=row["changed"],
        revision=row["revision"],
        caller=Caller(row["name"], row["contact"], row["address"]),
        said=read_said(row["said"]),
        closing=_closing(row["closing"]),
    )


def line_of(row: Row) -> CallLine:
    """Return a row as a line of a list."""
    return CallLine(
        number=row["number"],
        state=CallState(row["state"]),
        desk=row["desk"],
        adviser=row["adviser"],
        opened=row["opened"],
        changed=row["changed"],
        caller=row["name"],
        words=row["words"],
        lamp=row["lamp"],
    )


def trace_of(row: Row) -> Trace:
    """Return the step of a row."""
    return Trace(
        row["version"],
        row["at"],
        row["who"],
        row["did"],
        row["before"],
        row["after"],
        row["note"],
    )


def photo_of(row: Row) -> Photo:
    """Return what is known of the photograph of a row."""
    return Photo(
        row["number"],
        row["call"],
        row["at"],
        row["who"],
        row["media"],
        row["size"],
        row["says"],
    )


def given_of(row: Row) -> Given:
    """Return the answer of a row."""
    return Given(
        row["number"],
        row["call"],
        row["version"],
        row["at"],
        row["who"],
        row["what"],
        row["revision"],
        row["answer"],
    )


def write_parts(connection: sa.Connection, call: Call, sent: Collection[str] = ()) -> None:
    """Write which parts stand on the sheet of a call, and which its answer sends."""
    of_call = call_parts.c.call == call.number
    wanted, had = _fingerprints(call, sent), _noted(connection, call)
    gone, new = had - wanted, wanted - had
    if gone:
        connection.execute(sa.delete(call_parts).where(of_call, call_parts.c.part.in_(gone)))
    if new:
        rows = [{"call": call.number, "part": part} for part in sorted(new)]
        connection.execute(sa.insert(call_parts), rows)


def parts_noted(connection: sa.Connection, call: Call, sent: Collection[str]) -> bool:
    """Tell whether just those parts are noted that stand on a sheet or that its answer sends."""
    return _fingerprints(call, sent) == _noted(connection, call)


def _fingerprints(call: Call, sent: Collection[str]) -> set[str]:
    return {fingerprint(part) for part in (*parts_of(call.said), *sent)}


def _noted(connection: sa.Connection, call: Call) -> set[str]:
    noted = sa.select(call_parts.c.part).where(call_parts.c.call == call.number)
    return set(connection.scalars(noted))


def read_call(connection: sa.Connection, number: int, *, hold: bool = False) -> Call | None:
    """Read a call as it stands; hold its row against others where it will be written."""
    wanted = sa.select(calls).where(calls.c.number == known_number(number))
    row = connection.execute(wanted.with_for_update() if hold else wanted).mappings().first()
    return None if row is None else call_of(row)


def known_number(number: int) -> int:
    """Return a number that a column can be compared with; no row has 0."""
    return number if 0 < number <= _LARGEST else 0
