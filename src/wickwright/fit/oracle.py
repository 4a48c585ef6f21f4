"""Whether claims can all be met, why not, and what giving some up would allow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.light import findable, searched
from wickwright.fit.request import Claim, queries_of
from wickwright.fit.search.effort import Effort
from wickwright.fit.search.labels import unbeaten
from wickwright.fit.search.query import PACKING, Found, GaveUp
from wickwright.fit.search.tree import Admits
from wickwright.fit.search.whynot import conflict, ways_out

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation
    from wickwright.fit.search.query import Query, Way

__all__ = ["Oracle", "solved"]


def solved(
    compiled: Compiled,
    now: Situation,
    claims: Collection[Claim],
    admits: Admits = Admits.UNSURE,
    effort: Effort | None = None,
) -> Found | GaveUp:
    """Find every unbeaten way, unweighed parts in hand among them, within one effort."""
    effort = effort or Effort(compiled.settings.effort)
    ways: list[Way] = []
    for query in queries_of(compiled, now, claims, admits=admits):
        outcome = searched(compiled, now, query, effort)
        if isinstance(outcome, GaveUp):
            return outcome
        ways += outcome.ways
    rows = [(PACKING.pack(way.costs), way) for way in ways]
    return Found(tuple(way for _, way in unbeaten(rows, PACKING.guards)))


class Oracle:
    """Tells whether claims can all be met, and remembers what it was asked.

    Parameters
    ----------
    compiled : Compiled
        The book.
    now : Situation
        The request, looked at.
    refuted : collection of Claim
        Claims already shown not to hold together, if any.

    Attributes
    ----------
    gave_up : bool
        True once some search gave up.
    effort : Effort
        For all searches together; each may spend half of what is left.
    """

    def __init__(self, compiled: Compiled, now: Situation, refuted: Collection[Claim] = ()) -> None:
        self.compiled, self.now = compiled, now
        self.gave_up = False
        self.effort = Effort(compiled.settings.effort)
        self._refuted = [frozenset(refuted)] if refuted else []
        self._met: list[frozenset[Claim]] = []
        self._asked: dict[object, bool] = {}

    def __call__(self, claims: Collection[Claim]) -> bool:
        """Return False where it was shown that the claims cannot all be met.

        A search that gave up has shown nothing. Claims that were in fact impossible then pass
        as possible: a reason stays a reason, but may hold a member too many.
        """
        held = frozenset(claims)
        if any(one <= held for one in self._refuted):
            return False
        if any(held <= one for one in self._met):
            return True
        queries = queries_of(self.compiled, self.now, held, admits=Admits.UNSURE, any_way=True)
        found = any(self._remembered(query) for query in queries)
        (self._met if found else self._refuted).append(held)
        return found

    def reason(self, claims: Sequence[Claim]) -> tuple[Claim, ...]:
        """Return a smallest set of the claims that cannot all hold.

        Parameters
        ----------
        claims : sequence of Claim
            All that is insisted on.

        Returns
        -------
        tuple of Claim
            Words of the caller alone where they suffice, then with what the parts around those
            spoken of allow.
        """
        return conflict(claims, self, suspects(self.compiled, claims))

    def ways_out(
        self, claims: Sequence[Claim], because: Sequence[Claim]
    ) -> tuple[tuple[Claim, ...], ...]:
        """Return the smallest sets of claims to give up so that the rest can be met.

        Parameters
        ----------
        claims : sequence of Claim
            All that is insisted on.
        because : sequence of Claim
            From :meth:`reason`.

        Returns
        -------
        tuple of tuple of Claim
            Smaller sets first.
        """
        likely = suspects(self.compiled, claims)
        return ways_out(claims, self, because, likely=likely)

    def solved(self, claims: Collection[Claim]) -> tuple[Way, ...]:
        """Return every unbeaten way that meets the claims; none when the search gave up."""
        share = self.effort.share()
        outcome = solved(self.compiled, self.now, claims, effort=share)
        self.effort.pay(share)
        if isinstance(outcome, GaveUp):
            self.gave_up = True
            return ()
        return outcome.ways

    def _remembered(self, query: Query) -> bool:
        """Ask once for all claims that come to the same query."""
        key = (
            query.owned,
            query.buyable,
            query.usable,
            query.required,
            query.scales,
            query.openings,
            query.loose,
            bool(query.pivots),
            query.dry,
            tuple(query.most.items()),
        )
        found = self._asked.get(key)
        if found is None:
            share = self.effort.share()
            outcome = findable(self.compiled, self.now, query, share)
            self.effort.pay(share)
            self.gave_up |= isinstance(outcome, GaveUp)
            found = self._asked[key] = outcome is not False
        return found


_WORDS = ("ask", "service")
_HELD = ("keep", "replace", "budget")
_LIMITS = ("heat", "draft", "tip")


def suspects(compiled: Compiled, claims: Sequence[Claim]) -> tuple[tuple[Claim, ...], ...]:
    """Return sets of few claims in which a conflict is likely to be found.

    Parameters
    ----------
    compiled : Compiled
        The book.
    claims : sequence of Claim
        All that is insisted on.

    Returns
    -------
    tuple of tuple of Claim
        What the caller says; also what is kept and replaced; with joints and availability of
        the kinds spoken of and of those next to them; with the limits.
    """
    words = {claim for claim in claims if claim.sort in _WORDS}
    held = {claim for claim in claims if claim.sort in _HELD}
    limits = {claim for claim in claims if claim.sort in _LIMITS}
    near = _near(compiled, claims, {claim.subject for claim in words if claim.sort == "ask"})
    said = words | held
    sets = [words, said, words | near, said | limits, said | near, said | limits | near]
    return tuple(tuple(claim for claim in claims if claim in some) for some in sets)


def _near(compiled: Compiled, claims: Sequence[Claim], kinds: set[str]) -> set[Claim]:
    """Joints that one of the kinds is part of, and availability of all kinds at them."""
    around = [{below, *above.split(" or ")} for below, above in compiled.atoms]
    touched = [bool(some & kinds) for some in around]
    there = kinds.union(*(some for some, near in zip(around, touched, strict=True) if near))
    return {
        claim
        for claim in claims
        if (claim.sort == "joint" and touched[claim.index])
        or (claim.sort == "available" and claim.subject in there)
    }
