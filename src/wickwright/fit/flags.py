"""One byte for each part of a book: what passes which test.

Flags of a whole book are joined as one large integer, so that a new mixture of tests costs
a few operations however many parts there are.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS, Status
from wickwright.fit.wishes import passes

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Sequence

    from wickwright.catalogue.records import Ask, Part

__all__ = ["Flags", "buyable", "weighed"]


def buyable(part: Part, count: int) -> bool:
    """Tell whether so many of a part can be had.

    Parameters
    ----------
    part : Part
        The part.
    count : int
        How many.

    Returns
    -------
    bool
        False when it is no longer made, has no price, or the last stock is too small.
    """
    if part.price is None or part.status is Status.GONE:
        return False
    return part.status is Status.MADE or (part.stock or 0) >= count


def weighed(part: Part) -> bool:
    """Tell whether a part's mass and centre are known, as far as they matter.

    Parameters
    ----------
    part : Part
        The part.

    Returns
    -------
    bool
        True for tools, which are not mounted.
    """
    return part.kind == "tool" or None not in (part.mass, part.centre)


@dataclass
class Flags:
    """Tests of parts, each run once.

    Attributes
    ----------
    parts : sequence of Part
        By candidate number.
    """

    parts: Sequence[Part]
    _asks: dict[tuple[Ask, bool], int] = field(default_factory=dict)
    _counts: dict[int, int] = field(default_factory=dict)
    _numbers: dict[tuple[int, int], int] = field(default_factory=dict)

    @cached_property
    def _kinds(self) -> dict[str, int]:
        by_kind: dict[str, bytearray] = {kind: bytearray(len(self.parts)) for kind in KINDS}
        for at, part in enumerate(self.parts):
            by_kind[part.kind][at] = 1
        return {kind: int.from_bytes(flags, "little") for kind, flags in by_kind.items()}

    @cached_property
    def _weighed(self) -> int:
        """Parts that are weighed with all that comes with them."""
        known = {part.id for part in self.parts if weighed(part)}
        return self._number(lambda part: part.id in known and known.issuperset(part.includes))

    def _number(self, test: Callable[[Part], bool]) -> int:
        return int.from_bytes(bytes(test(part) for part in self.parts), "little")

    def _bytes(self, number: int) -> bytes:
        return number.to_bytes(len(self.parts), "little")

    def usable(self, tests: Iterable[Ask], *, unsure: bool = False) -> bytes:
        """Return 1 for each part that may be used under all the asks.

        Parameters
        ----------
        tests : iterable of Ask
            ``only``, ``never``, ``absent`` and ``service``, resolved.
        unsure : bool
            True to let in parts of which nobody knows whether they meet an ask.

        Returns
        -------
        bytes
            One byte a part.
        """
        flags = self._everyone
        for ask in tests:
            flags &= self._passing(ask, unsure)
        return self._bytes(flags)

    def _passing(self, ask: Ask, unsure: bool) -> int:  # noqa: FBT001
        found = self._asks.get((ask, unsure))
        if found is None:
            found = self._number(lambda part: passes(part, ask, unsure=unsure))
            self._asks[ask, unsure] = found
        return found

    @cached_property
    def _everyone(self) -> int:
        return int.from_bytes(b"\x01" * len(self.parts), "little")

    def able(
        self,
        usable: bytes,
        body: Collection[str],
        free: Collection[str],
        count: int,
        unweighed: bool,  # noqa: FBT001
    ) -> bytes:
        """Return 1 for each part that may be bought.

        Parameters
        ----------
        usable : bytes
            What may be used at all.
        body : collection of str
            Kinds that are there already and stay.
        free : collection of str
            Kinds whose availability is not insisted on.
        count : int
            How many of each part are needed.
        unweighed : bool
            True when parts that were never weighed are let in.

        Returns
        -------
        bytes
            One byte a part.
        """
        had = self._counts.get(count)
        if had is None:
            had = self._counts[count] = self._number(lambda part: buyable(part, count))
        for kind in free:
            had |= self._kinds[kind]
        for kind in body:
            had &= ~self._kinds[kind]
        if not unweighed:
            had &= self._weighed
        return self._bytes(had & int.from_bytes(usable, "little"))

    def by_kind(self, able: bytes, usable: bytes) -> tuple[int, ...]:
        """Return a small number for each kind, the same where its flags are the same.

        Parameters
        ----------
        able, usable : bytes
            What may be bought and what may be used.

        Returns
        -------
        tuple of int
            In the order of :data:`~wickwright.catalogue.records.KINDS`.
        """
        buy, use = int.from_bytes(able, "little"), int.from_bytes(usable, "little")
        numbers = self._numbers
        return tuple(
            numbers.setdefault((buy & kind, use & kind), len(numbers))
            for kind in self._kinds.values()
        )
