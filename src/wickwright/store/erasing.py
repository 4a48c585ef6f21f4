"""Who called, taken out of everything that is kept of a call."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import sqlalchemy as sa

from wickwright.answers.sheet.call_record import Call, Caller
from wickwright.store.folding import folded
from wickwright.store.schema import given, photos, replies, trail

if TYPE_CHECKING:
    from wickwright.answers.plain.answers import Plain

__all__ = ["erase_call"]

_OWN_WORDS = ("words", "place", "reply", "overruled", "note")
"""Fields of a sheet and of a closing that are a caller's words, or about a person. Of the place
its elevation stays: it is all that is learned from."""

_OWN_KEYS = frozenset({*_OWN_WORDS, "caller", "contact", "address", "letter", "text"})
"""Under these nothing of an answer that went out is kept."""

_TELLING = 20
"""A caller's words of at least so many signs are looked for in answers; 'wick' is in all."""


def erase_call(connection: sa.Connection, call: Call) -> Call:
    """Erase a caller from all tables but that of calls, which is still to be written.

    Parameters
    ----------
    connection : sqlalchemy.Connection
        In a transaction that writes.
    call : Call
        As it stands.

    Returns
    -------
    Call
        As it has to stand from now on.
    """
    secrets = _secrets(call, _words_once(connection, call.number))
    _erase_trail(connection, call.number)
    _erase_given(connection, call.number, secrets)
    _erase_replies(connection, secrets)
    connection.execute(sa.delete(photos).where(photos.c.call == call.number))
    closing = None if call.closing is None else replace(call.closing, note="")
    said = replace(call.said, words="", place="", reply="", overruled="", note="")
    return replace(call, caller=Caller(), said=said, closing=closing)


def _words_once(connection: sa.Connection, number: int) -> set[str]:
    """Return all that ever stood on the sheet in a caller's or an adviser's own words."""
    steps = sa.select(trail.c.after).where(trail.c.call == number)
    return {
        str(after[name])
        for after in connection.scalars(steps)
        for name in _OWN_WORDS
        if after.get(name)
    }


def _secrets(call: Call, once: set[str]) -> re.Pattern[str] | None:
    """Return what is not to be met again anywhere, as whole words of a folded text."""
    own = [folded(one) for one in (call.caller.name, call.caller.contact, call.caller.address)]
    words = [text for one in sorted(once) if len(text := folded(one)) >= _TELLING]
    told = [one for one in (*own, *words) if one]
    if not told:
        return None
    return re.compile("|".join(rf"(?<!\w){re.escape(one)}(?!\w)" for one in told))


def _erase_trail(connection: sa.Connection, number: int) -> None:
    steps = sa.select(trail.c.step, trail.c.did, trail.c.before, trail.c.after, trail.c.standing)
    for row in connection.execute(steps.where(trail.c.call == number)).mappings():
        before, after = _without_words(row["before"]), _without_words(row["after"])
        # A step of words alone has nothing left that could be taken back.
        values = {"before": before, "after": after, "standing": row["standing"] and bool(before)}
        note = {} if row["did"] == "given" else {"note": ""}
        connection.execute(
            sa.update(trail).where(trail.c.step == row["step"]).values({**values, **note})
        )


def _without_words(fields: dict[str, Plain]) -> dict[str, Plain]:
    return {name: value for name, value in fields.items() if name not in _OWN_WORDS}


def _erase_given(connection: sa.Connection, number: int, secrets: re.Pattern[str] | None) -> None:
    answers = sa.select(given.c.number, given.c.answer)
    for row in connection.execute(answers.where(given.c.call == number)).mappings():
        left = _scrubbed(row["answer"], secrets)
        connection.execute(
            sa.update(given).where(given.c.number == row["number"]).values(answer=left)
        )


def _scrubbed(plain: Plain, secrets: re.Pattern[str] | None) -> Plain:
    """Blank every text that holds a secret, and all that stands under a caller's own keys."""
    if isinstance(plain, dict):
        return {
            name: None if name in _OWN_KEYS else _scrubbed(value, secrets)
            for name, value in plain.items()
        }
    if isinstance(plain, list):
        return [_scrubbed(one, secrets) for one in plain]
    if isinstance(plain, str) and secrets and secrets.search(folded(plain)):
        return ""
    return plain


def _erase_replies(connection: sa.Connection, secrets: re.Pattern[str] | None) -> None:
    """Forget answers to keyed writes that tell who called."""
    if secrets is None:
        return
    kept = connection.execute(sa.select(replies.c.fingerprint, replies.c.body)).all()
    told = [key for key, body in kept if secrets.search(folded(_readable(bytes(body))))]
    for key in told:
        connection.execute(sa.delete(replies).where(replies.c.fingerprint == key))


def _readable(body: bytes) -> str:
    """Return an answer as text, its JSON without escapes."""
    text = body.decode(errors="replace")
    try:
        return json.dumps(json.loads(text), ensure_ascii=False)
    except ValueError:
        return text
