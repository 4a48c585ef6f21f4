"""Why there is no way: the smallest set of claims that cannot all hold, and what to give up.

A *claim* is anything that can be insisted on or given up. The oracle ``holds`` tells whether
a set of claims can all be met. More claims never make it easier.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Generic, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

__all__ = ["conflict", "ways_out"]

Claim = TypeVar("Claim")


def conflict(
    claims: Sequence[Claim],
    holds: Callable[[Sequence[Claim]], bool],
    likely: Sequence[Sequence[Claim]] = (),
) -> tuple[Claim, ...]:
    """Find a smallest set of claims that cannot all hold.

    Parameters
    ----------
    claims : sequence
        In the order of preference: of several conflicts, the one that does with the earlier
        claims is found.
    holds : callable
        Tells whether a set of claims can all be met.
    likely : sequence of sequence
        Few claims each, in the same order, tried one after the other before all: the conflict
        is looked for in the first that cannot all hold.

    Returns
    -------
    tuple
        Minimal: without any one of them the rest can be met. Empty when all claims hold,
        or when not even the empty set does.

    Notes
    -----
    Divide and conquer over the claims (source key ``junker2004``).
    """
    suspects = next((some for some in (*likely, claims) if not holds(some)), ())
    if not suspects or not holds(()):
        return ()
    return tuple(_core((), (), tuple(suspects), holds))


def _core(
    background: tuple[Claim, ...],
    added: tuple[Claim, ...],
    claims: tuple[Claim, ...],
    holds: Callable[[Sequence[Claim]], bool],
) -> tuple[Claim, ...]:
    if added and not holds(background):
        return ()
    if len(claims) == 1:
        return claims
    middle = len(claims) // 2
    first, second = claims[:middle], claims[middle:]
    needed = _core(background + first, first, second, holds)
    return _core(background + needed, needed, first, holds) + needed


def ways_out(
    claims: Sequence[Claim],
    holds: Callable[[Sequence[Claim]], bool],
    first: Sequence[Claim],
    *,
    likely: Sequence[Sequence[Claim]] = (),
    most: int = 2,
    enough: int = 6,
) -> tuple[tuple[Claim, ...], ...]:
    """Find the smallest sets of claims to give up so that the rest can be met.

    Parameters
    ----------
    claims : sequence
        All claims.
    holds : callable
        Tells whether a set of claims can all be met.
    first : sequence
        One conflict, already found.
    likely : sequence of sequence
        As for :func:`conflict`.
    most : int
        Largest set looked for.
    enough : int
        Stop after so many sets.

    Returns
    -------
    tuple of tuple
        Each minimal, smaller sets first.

    Notes
    -----
    Every such set meets every conflict, so the search branches over the members of one
    conflict at a time (source key ``reiter1987``). A conflict serves every branch that gives
    up none of its members.
    """
    search = _Hitting(claims, holds, likely, first)
    layer: list[frozenset[Claim]] = [frozenset()]
    for _ in range(most):
        layer = search.deeper(layer, enough)
    order = {claim: at for at, claim in enumerate(claims)}
    return tuple(tuple(sorted(one, key=order.__getitem__)) for one in search.found)


class _Hitting(Generic[Claim]):
    """Conflicts met so far, and sets of claims that meet them all."""

    def __init__(
        self,
        claims: Sequence[Claim],
        holds: Callable[[Sequence[Claim]], bool],
        likely: Sequence[Sequence[Claim]],
        first: Sequence[Claim],
    ) -> None:
        self.claims, self.holds, self.likely = claims, holds, likely
        self.conflicts = [tuple(first)] if first else []
        self.found: list[frozenset[Claim]] = []

    def deeper(self, layer: Sequence[frozenset[Claim]], enough: int) -> list[frozenset[Claim]]:
        """Give up one claim more along every branch; return the sets that do not do yet."""
        following: dict[frozenset[Claim], None] = {}
        for given_up in layer:
            if len(self.found) >= enough:
                break
            for claim in self._conflict(given_up):
                wider = given_up | {claim}
                if len(self.found) >= enough or any(one <= wider for one in self.found):
                    continue
                if wider not in following:
                    if self._does(wider):
                        self.found.append(wider)
                    else:
                        following[wider] = None
        return list(following)

    def _does(self, given_up: frozenset[Claim]) -> bool:
        """Tell whether all the rest can be met."""
        return self._known(given_up) is None and self.holds(_without(self.claims, given_up))

    def _conflict(self, given_up: frozenset[Claim]) -> tuple[Claim, ...]:
        """Return a conflict within the rest."""
        found = self._known(given_up)
        if found is None:
            likely = [_without(some, given_up) for some in self.likely]
            found = conflict(_without(self.claims, given_up), self.holds, likely)
            self.conflicts.append(found)
        return found

    def _known(self, given_up: frozenset[Claim]) -> tuple[Claim, ...] | None:
        return next((one for one in self.conflicts if given_up.isdisjoint(one)), None)


def _without(claims: Sequence[Claim], given_up: frozenset[Claim]) -> list[Claim]:
    return [one for one in claims if one not in given_up]
