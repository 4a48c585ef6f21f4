"""One made-up book, ready for everybody: compiled for us, part by part for the others."""

from __future__ import annotations

import signal
import sys
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from time import perf_counter
from typing import TYPE_CHECKING

from benchmarks.routes.book import made_up_book
from benchmarks.routes.calls import Calls
from benchmarks.routes.fitting import fitting_of
from benchmarks.routes.problem import PER_BOUGHT, PER_DYING
from benchmarks.routes.scale import SCALES

from wickwright.fit.compiled import compile_book
from wickwright.fit.joints.verdict import ACCEPTED, Fit
from wickwright.fit.request import claims_of, query_of, situation
from wickwright.fit.search.query import Aim, Found
from wickwright.fit.search.solve import solve

if TYPE_CHECKING:
    from collections.abc import Iterator

    from benchmarks.routes.fitting import Costs, Fitting

    from wickwright.catalogue.records import Book
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Claim, Request, Situation
    from wickwright.fit.search.query import Query

__all__ = ["Answered", "Arena", "Asked", "say"]


def say(text: str) -> None:
    """Tell whoever waits how far it is."""
    print(text, file=sys.stderr, flush=True)


@dataclass(frozen=True, slots=True)
class Asked:
    """A call, looked at."""

    request: Request
    now: Situation
    claims: tuple[Claim, ...]
    query: Query


@dataclass(frozen=True, slots=True)
class Answered:
    """What our search says to a call.

    Attributes
    ----------
    costs : set of tuple of int or None
        Of all unbeaten ways; None when it gave up or its time was up.
    seconds : float
        Taken, the query included.
    """

    costs: set[Costs] | None
    seconds: float

    @property
    def best(self) -> int | None:
        """The least weighted sum; None when there is no way."""
        sums = (p + PER_BOUGHT * b + PER_DYING * d for p, b, d, _ in self.costs or ())
        return min(sums, default=None)


@contextmanager
def _at_most(seconds: float) -> Iterator[None]:
    """Raise TimeoutError where the block takes longer."""

    def stop(_: int, __: object) -> None:
        raise TimeoutError

    before = signal.signal(signal.SIGALRM, stop)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


@dataclass
class Arena:
    """A book of one size.

    Attributes
    ----------
    size : str
        ``S``, ``M`` or ``L``.
    seed : int
        Of the book and of the calls.
    limit : float
        Time our search has for a call [s].
    """

    size: str
    seed: int
    limit: float = 30.0

    @cached_property
    def book(self) -> Book:
        """The book."""
        say(f"{self.size}: making a book")
        return made_up_book(SCALES[self.size], self.seed)

    @cached_property
    def compiled(self) -> Compiled:
        """The book as our search has it."""
        return compile_book(self.book)

    @cached_property
    def fitting(self) -> Fitting:
        """The book part by part."""
        return fitting_of(self.compiled)

    @cached_property
    def lenient(self) -> Fitting:
        """The book part by part, joints of which nothing is known let in."""
        return fitting_of(self.compiled, ACCEPTED | {Fit.UNKNOWN})

    def calls(self, count: int, seed: int = 0) -> Iterator[Asked]:
        """Yield so many calls."""
        for request in islice(Calls(self.book, self.seed + seed), count):
            now = situation(self.compiled, request)
            claims = claims_of(self.compiled, now)
            yield Asked(request, now, claims, query_of(self.compiled, now, claims))

    def ours(self, asked: Asked) -> Answered:
        """Answer a call by our search, timed from the claims on."""
        start = perf_counter()
        try:
            with _at_most(self.limit):
                query = query_of(self.compiled, asked.now, asked.claims)
                outcome = solve(self.compiled.memory, query)
        except TimeoutError:
            say(f"{self.size}: TIME UP for ours: {asked.request}")
            self.forget()  # what was being remembered may be half done
            return Answered(None, self.limit)
        seconds = perf_counter() - start
        if not isinstance(outcome, Found):
            return Answered(None, seconds)
        aims = (Aim.PRICE, Aim.BOUGHT, Aim.DYING, Aim.SHORTFALL)
        price, bought, dying, light = aims
        costs = {
            (way.costs[price], way.costs[bought], way.costs[dying], way.costs[light])
            for way in outcome.ways
        }
        return Answered(costs, seconds)

    def forget(self) -> None:
        """Start again from a freshly compiled book."""
        self.compiled = compile_book(self.book, before=self.compiled)
