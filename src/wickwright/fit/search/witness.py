"""One complete tree that stands, put together place by place: proof enough that there is one.

In every place the candidate of least leverage is taken of those that leave the wanted kinds a
place. Most questions whether anything stands end here. Where such a tree does not stand, nothing
is shown, and :mod:`wickwright.fit.search.least` weighs every tree.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wickwright.fit.search.balance import share

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.fit.search.prover import Prover
    from wickwright.fit.search.tree import Candidate

__all__ = ["Witness"]

_BASES = 4
"""Bases tried [-]."""
_TRIED = 2
"""Candidates tried in one place before it counts as not to be filled [-]."""


class _Filled(NamedTuple):
    """What stands in a place: its leverage, and the tracked kinds in it as bits."""

    leverage: int
    kinds: int


class _Choice(NamedTuple):
    """A candidate for a place: its own leverage, and whether it is in hand, or can be bought."""

    own: int
    number: int
    had: bool
    sold: bool


class Witness:
    """Looks for one tree that stands.

    Parameters
    ----------
    prover : Prover
        Knows what can stand where.
    """

    def __init__(self, prover: Prover) -> None:
        self.prover = prover
        self.required = prover.query.required

    def stands(self, context: int) -> bool:
        """Tell whether a tree that meets one set of demands on the whole was found to stand.

        Parameters
        ----------
        context : int
            The demands, packed.

        Returns
        -------
        bool
            True proves that some tree stands; False proves nothing.
        """
        pivots = self.prover.query.pivots
        bases = [
            one
            for one in self._choices(self.prover.query.root, context, 0, self.required, None)
            if one.number in pivots
        ]
        for base in bases[:_BASES]:
            arm = -pivots[base.number]
            found = self._placed(base, context, 0, self.required, arm)
            if found is not None and found.leverage <= 0:
                return True
        return False

    def _choices(
        self, socket: int, context: int, extra: int, want: int, arm: int | None
    ) -> list[_Choice]:
        """Return who can stand in a class with the wanted kinds, the least leverage first.

        Without a height, each has its own: that of a base above its pivot.
        """
        found: list[_Choice] = []
        prover, required = self.prover, self.required
        for group, had, sold in prover.there(socket, context, extra):
            prover.spend()
            masks = prover.standing(group, had, sold, context, extra)
            if any(mask & required == want for mask in masks):
                size = len(prover.tree.candidates)
                in_hand, bought = had.to_bytes(size, "little"), sold.to_bytes(size, "little")
                found += (
                    _Choice(self._own(one, arm), one, bool(in_hand[one]), bool(bought[one]))
                    for one in group.members
                    if in_hand[one] or bought[one]
                )
        return sorted(found)

    def _own(self, number: int, arm: int | None) -> int:
        if arm is None:
            arm = -self.prover.query.pivots.get(number, 0)
        return share(self._candidate(number), arm, dry=self.prover.query.dry)

    def _candidate(self, number: int) -> Candidate:
        return self.prover.tree.candidates[number]

    def _filled(self, socket: int, context: int, extra: int, want: int, arm: int) -> _Filled | None:
        if not want and not self.prover.tree.sockets[socket].required:
            return _Filled(0, 0)
        if not self.prover.worth_filling(socket):
            return None
        choices = self._choices(socket, context, extra, want, arm)
        tried = (self._placed(one, context, extra, want, arm) for one in choices[:_TRIED])
        return next((found for found in tried if found is not None), None)

    def _placed(
        self, choice: _Choice, context: int, extra: int, want: int, arm: int
    ) -> _Filled | None:
        it = self._candidate(choice.number)
        bit = (1 << it.kind) & self.prover.tracked
        if bit & self.required & ~want:
            return None
        below = self.prover.below(choice.number, context)
        own = share(it, arm, dry=self.prover.query.dry)
        for more in self._extras(choice, extra):
            hung = self._spread(it, 0, below, more, want & ~bit, arm)
            if hung is not None and not hung.kinds & bit:
                return _Filled(own + hung.leverage, bit | hung.kinds)
        return None

    def _extras(self, choice: _Choice, extra: int) -> Iterator[int]:
        """Yield what is at hand above a candidate: as before, and with what it brings."""
        brought = self.prover.brought(choice.number)
        if choice.had or not brought:
            yield extra
        if choice.sold and brought:
            yield extra | brought

    def _spread(
        self, it: Candidate, at: int, below: int, extra: int, want: int, arm: int
    ) -> _Filled | None:
        """Fill the sockets of a candidate from one on, the wanted kinds spread over them."""
        if at == len(it.sockets):
            return None if want else _Filled(0, 0)
        socket = it.sockets[at]
        parts = {mask & self.required for mask in self.prover.can(socket, below, extra)}
        for part in sorted(part for part in parts if not part & ~want):
            one = self._filled(socket, below, extra, part, arm + it.rises[at])
            more = self._spread(it, at + 1, below, extra, want & ~part, arm) if one else None
            if one is not None and more is not None and not one.kinds & more.kinds:
                return _Filled(one.leverage + more.leverage, one.kinds | more.kinds)
        return None
