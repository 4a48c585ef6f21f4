"""Fit books ready for questions: made so once, and the last few kept."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field, replace
from functools import cached_property
from threading import Lock
from typing import TYPE_CHECKING

from wickwright.answers.book.look_up import BookIndex
from wickwright.catalogue.reading import read_book
from wickwright.terms.units import Units

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickwright.answers.sheet.desk_store import Books, Revision
    from wickwright.answers.sheet.memory import Memory
    from wickwright.catalogue.records import Book
    from wickwright.fit.compiled import Compiled
    from wickwright.recognise.asking import Asking

__all__ = ["NoBookError", "OpenBook", "OpenBooks"]

_KEPT = 4
"""Books kept ready [-]: the one in force, the one before it, and two that are looked at."""


class NoBookError(RuntimeError):
    """No fit book is in force, or a kept one can no longer be read."""


@dataclass(frozen=True)
class OpenBook:
    """A revision of the fit book, ready for questions.

    Attributes
    ----------
    revision : Revision
        Which.
    compiled : Compiled
        The book, made ready.
    """

    revision: Revision
    compiled: Compiled
    _lock: Lock = field(default_factory=Lock, repr=False, compare=False)
    _asking: list[Asking | None] = field(default_factory=list, repr=False, compare=False)
    _memories: dict[str, Memory] = field(default_factory=dict, repr=False, compare=False)

    @property
    def book(self) -> Book:
        """Its records."""
        return self.compiled.book

    @property
    def asking(self) -> Asking | None:
        """What can be asked about its lamps, laid out once; None where it names no looks."""
        with self._lock:
            if not self._asking:
                self._asking.append(_asking(self.compiled))
            return self._asking[0]

    @cached_property
    def index(self) -> BookIndex:
        """Its lamps and parts, laid out once for looking up."""
        return BookIndex(self.book)

    def memory(self, system: str) -> Memory:
        """Return what was worked out from the book, in a system of units; one for all desks."""
        from wickwright.answers.sheet.memory import Memory  # noqa: PLC0415 - start-up time

        asking = self.asking
        with self._lock:
            if system not in self._memories:
                self._memories[system] = Memory(self.compiled, asking, self.units(system))
            return self._memories[system]

    def units(self, system: str) -> Units:
        """Return the units to print in, with the currency of the book."""
        return Units(system, self.book.currency)


def _asking(compiled: Compiled) -> Asking | None:
    if not compiled.book.calls.looks or not compiled.book.lamps:
        return None
    from wickwright.answers.which_lamp import asking_of  # noqa: PLC0415 - start-up time

    return asking_of(compiled)


class OpenBooks:
    """The revisions of a store, made ready when they are first asked for.

    Parameters
    ----------
    books : Books
        Of a store.
    compile_book : callable
        Makes a book ready.
    """

    def __init__(self, books: Books, compile_book: Callable[[Book], Compiled]) -> None:
        self._books = books
        self._compile = compile_book
        self._open: OrderedDict[str, OpenBook] = OrderedDict()
        self._lock = Lock()
        self._making: dict[str, Lock] = {}

    def in_force(self) -> OpenBook:
        """Return the book that holds.

        Raises
        ------
        NoBookError
            When there is none.
        """
        revision = self._books.in_force()
        if revision is None:
            msg = "no fit book is in force: put a loaded revision in force"
            raise NoBookError(msg)
        return self._ready(revision)

    def of(self, revision: str) -> OpenBook | None:
        """Return a revision; None where the store has none of that name."""
        known = self._known(revision)
        if known is not None:
            self._keep(known)
            return known
        found = next((one for one in self._books.revisions() if one.id == revision), None)
        return self._ready(found) if found else None

    def _ready(self, revision: Revision) -> OpenBook:
        with self._lock:
            making = self._making.setdefault(revision.id, Lock())
        with making:
            known = self._known(revision.id)
            if known is None:
                known = OpenBook(revision, self._made(revision))
            elif known.revision != revision:
                known = replace(known, revision=revision)
            self._keep(known)
        return known

    def _known(self, revision: str) -> OpenBook | None:
        with self._lock:
            return self._open.get(revision)

    def _made(self, revision: Revision) -> Compiled:
        tables = self._books.tables(revision.id)
        book = read_book(tables) if tables else ()
        if isinstance(book, tuple):
            msg = (
                f"revision {revision.id} of the fit book can no longer be read: "
                f"{len(book)} faults; it was loaded under other rules for tables"
            )
            raise NoBookError(msg)
        return self._compile(book)

    def _keep(self, one: OpenBook) -> None:
        with self._lock:
            self._open[one.revision.id] = one
            self._open.move_to_end(one.revision.id)
            while len(self._open) > _KEPT:
                self._open.popitem(last=False)
