"""Writes that carry a key, done once however often they are sent (``idempotency-key-07``)."""

from __future__ import annotations

import json
from contextlib import contextmanager
from dataclasses import dataclass, field
from hashlib import sha256
from threading import Lock
from typing import TYPE_CHECKING

from wickwright.answers.sheet.desk_store import KeptReply
from wickwright.desk.api_problems import ProblemError, Refusal

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from datetime import datetime

    from wickwright.answers.sheet.desk_store import Store

__all__ = ["KEY_PATTERN", "KeyedWrite", "Running", "once"]

KEY_PATTERN = r'^("[ !#-\[\]-~]{1,255}"|[A-Za-z0-9._~-]{1,255})$'
"""A string in quotation marks, as the draft has it, or the same without them."""


class Running:
    """Keys of writes that are being done in this process."""

    def __init__(self) -> None:
        self._keys: set[str] = set()
        self._lock = Lock()

    @contextmanager
    def only(self, key: str) -> Iterator[None]:
        """Have a write done by nobody else meanwhile.

        Raises
        ------
        ProblemError
            When it is being done.
        """
        with self._lock:
            if key in self._keys:
                says = "A write with this key is being done: ask again in a moment."
                raise ProblemError(Refusal.KEY_RUNNING, says, headers={"Retry-After": "1"})
            self._keys.add(key)
        try:
            yield
        finally:
            with self._lock:
                self._keys.discard(key)


@dataclass(frozen=True, slots=True)
class KeyedWrite:
    """A write and its key.

    Attributes
    ----------
    who : str
        Whose key it is: keys of two people never meet.
    key : str
        As it was sent.
    body : object
        What was sent, as plain data.
    """

    who: str
    key: str
    body: object = field(repr=False)

    @property
    def name(self) -> str:
        """Under which its answer is kept."""
        return f"{self.who}\n{self.key.removeprefix(chr(34)).removesuffix(chr(34))}"

    @property
    def print(self) -> str:
        """SHA-256 of what was sent, its keys in order."""
        return sha256(json.dumps(self.body, sort_keys=True).encode()).hexdigest()


class _DoneElsewhereError(Exception):
    """Another process kept an answer under this key first."""

    def __init__(self, kept: KeptReply) -> None:
        super().__init__(kept.key)
        self.kept = kept


def once(
    store: Store, running: Running, write: KeyedWrite, do: Callable[[], bytes], at: datetime
) -> bytes:
    """Do a write that was not done before, and keep its answer with it.

    Parameters
    ----------
    store : Store
        Where both are kept, whole or not at all.
    running : Running
        Of this process.
    write : KeyedWrite
        What was sent.
    do : callable
        Does it, and returns the body of the answer.
    at : datetime
        In UTC.

    Returns
    -------
    bytes
        The body, now or as it was the first time.

    Raises
    ------
    ProblemError
        When it is being done, or its key came with another body before.
    """
    with running.only(write.name):
        kept = store.replies.kept(write.name)
        if kept is None:
            try:
                with store.together():
                    return _kept(store, write, do(), at)
            except _DoneElsewhereError as error:
                kept = error.kept
        return _again(kept, write)


def _kept(store: Store, write: KeyedWrite, body: bytes, at: datetime) -> bytes:
    reply = KeptReply(write.name, write.print, 201, body)
    first = store.replies.keep(reply, at)
    if first != reply:
        raise _DoneElsewhereError(first)
    return body


def _again(kept: KeptReply, write: KeyedWrite) -> bytes:
    if kept.print != write.print:
        says = "This key came with another body before: take a new key for a new question."
        raise ProblemError(Refusal.KEY_REUSED, says)
    return kept.body
