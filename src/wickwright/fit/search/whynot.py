"""Why there is no way: the smallest set of claims that cannot all hold, and what to give up.

A *claim* is anything that can be insisted on or given up. The oracle ``holds`` tells whether
a set of claims can all be met. More claims never make it easier.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

__all__ = ["conflict", "ways_out"]

Claim = TypeVar("Claim")


def conflict(
    claims: Sequence[Claim], holds: Callable[[Sequence[Claim]], bool]
) -> tuple[Claim, ...]:
    """Find a smallest set of claims that cannot all hold.

    Parameters
    ----------
    claims : sequence
        In the order of preference: of several conflicts, the one that does with the earlier
        claims is found.
    holds : callable
        Tells whether a set of claims can all be met.

    Returns
    -------
    tuple
        Minimal: without any one of them the rest can be met. Empty when all claims hold,
        or when not even the empty set does.

    Notes
    -----
    Divide and conquer over the claims (source key ``junker2004``).
    """
    if holds(claims) or not holds(()):
        return ()
    return tuple(_core((), (), tuple(claims), holds))


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
    conflict at a time (source key ``reiter1987``).
    """
    found: list[frozenset[Claim]] = []
    layer: list[tuple[frozenset[Claim], Sequence[Claim]]] = [(frozenset(), first)]
    for _ in range(most):
        layer = _deeper(claims, holds, layer, found, enough)
    order = {claim: at for at, claim in enumerate(claims)}
    return tuple(tuple(sorted(one, key=order.__getitem__)) for one in found)


def _deeper(
    claims: Sequence[Claim],
    holds: Callable[[Sequence[Claim]], bool],
    layer: list[tuple[frozenset[Claim], Sequence[Claim]]],
    found: list[frozenset[Claim]],
    enough: int,
) -> list[tuple[frozenset[Claim], Sequence[Claim]]]:
    """Give up one claim more along every branch."""
    following: dict[frozenset[Claim], Sequence[Claim]] = {}
    for given_up, core in layer:
        for claim in core:
            wider = given_up | {claim}
            if len(found) >= enough or wider in following:
                continue
            if any(one <= wider for one in found):
                continue
            rest = [one for one in claims if one not in wider]
            if holds(rest):
                found.append(wider)
            else:
                following[wider] = conflict(rest, holds)
    return [(wider, core) for wider, core in following.items() if core]
