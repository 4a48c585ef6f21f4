"""A request as clauses in which every claim can be given up: for cores of a general solver.

Only whether matters here, not the cost. Of parts that stand, carry and pass the asks alike
only those are kept that no other beats on ratings, light and leverage.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from itertools import combinations
from typing import TYPE_CHECKING

from benchmarks.routes.clauses import Clauses
from benchmarks.routes.problem import Piece, Place, Problem, front_of

from wickwright.catalogue.records import KINDS, Need, Service
from wickwright.fit.flags import buyable
from wickwright.fit.request import BODY, Claim
from wickwright.fit.wishes import passes, resolved

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from benchmarks.routes.fitting import Fitting

    from wickwright.catalogue.records import Ask, Part
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.request import Situation

__all__ = ["Insistence", "insistence_of"]

_NUMBERS = {kind: at for at, kind in enumerate(KINDS)}
_PLENTY = 1 << 30


@dataclass
class Insistence:
    """A request for a solver with assumptions.

    Attributes
    ----------
    out : Clauses
        The clauses.
    problem : Problem
        The pieces with every place loosened, to weigh answers with.
    claims : dict of Claim to int
        The literal of each claim.
    light : tuple of (int, int) or None
        The literal of the claim to more light, and how much is asked.
    dry : tuple of (bool, bool)
        Whether no fuel counts, with the wish for another service given up and held.
    service : int
        The literal of that wish; 0 when there is none.
    """

    out: Clauses
    problem: Problem
    claims: dict[Claim, int] = field(default_factory=dict)
    light: tuple[int, int] | None = None
    dry: tuple[bool, bool] = (False, False)
    service: int = 0


def insistence_of(
    compiled: Compiled, book: Fitting, now: Situation, claims: Sequence[Claim]
) -> Insistence:
    """Write a request with every claim as something to be assumed.

    Parameters
    ----------
    compiled : Compiled
        The book.
    book : Fitting
        The same, part by part, joints of which nothing is known let in.
    now : Situation
        The request, looked at.
    claims : sequence of Claim
        All that is insisted on.

    Returns
    -------
    Insistence
        For a solver.
    """
    writer = _Writer(compiled, book, now, claims)
    writer.kinds()
    writer.standing()
    writer.filling()
    writer.having()
    writer.demands()
    writer.wish()
    return writer.done()


class _Writer:
    def __init__(
        self, compiled: Compiled, book: Fitting, now: Situation, claims: Sequence[Claim]
    ) -> None:
        self.compiled, self.book, self.now = compiled, book, now
        self.parts, self.out = compiled.parts, Clauses()
        self.claims = {claim: self.out.new() for claim in claims}
        lamp = compiled.book.lamps[now.request.lamp]
        self.asks: list[tuple[Ask, int]] = []
        for at, ask in enumerate(now.request.wish.asks):
            self.asks.append((resolved(ask, lamp, now), self.claims[Claim("ask", ask.kind, at)]))
        self.owned = {compiled.numbers[part.id] for part in now.owned}
        self.tests = self._tests()
        self.keep = self._reduced()
        self.by_kind: defaultdict[int, list[int]] = defaultdict(list)
        for number in sorted(self.keep):
            self.by_kind[book.parts[number].kind].append(number)
            self.out.present[number] = self.out.new()
        self.takes = self._takes()

    def _tests(self) -> list[tuple[Ask, int]]:
        """Asks that speak of single parts, the service that goes without saying among them."""
        from wickwright.catalogue.records import Ask  # noqa: PLC0415 - a name for the maker

        tests = [(a, it) for a, it in self.asks if a.ask in ("only", "never", "absent", "service")]
        spoken = self.claims.get(Claim("service", self.now.service.value))
        if spoken:
            tests.append((Ask("service", value=self.now.service.value), spoken))
        return tests

    # -- reduction ---------------------------------------------------------------------

    def _reduced(self) -> set[int]:
        stands: defaultdict[int, list[int]] = defaultdict(list)
        seen: set[int] = set()
        for slots in self.book.slots:
            for slot in slots:
                if id(slot.fits) not in seen:
                    seen.add(id(slot.fits))
                    for number in slot.fits:
                        stands[number].append(id(slot.fits))
        kept = set(self.owned)
        brought = {one for it in self.book.parts for one in it.brings}
        alike: defaultdict[object, list[int]] = defaultdict(list)
        for number, part in enumerate(self.parts):
            if number in self.owned or number in brought:
                kept.add(number)
                continue
            alike[self._likeness(number, part, tuple(stands[number]))].append(number)
        for numbers in alike.values():
            kept.update(front_of({number: self._costs(number) for number in numbers}))
        return kept

    def _likeness(self, number: int, part: Part, stands: tuple[int, ...]) -> object:
        it = self.book.parts[number]
        slots = tuple((id(slot.fits), slot.required) for slot in self.book.slots[number])
        fails = tuple(not passes(part, ask, unsure=True) for ask, _ in self.tests)
        can = buyable(part, self.now.request.count)
        makes = self.compiled.forms.get(part.id)
        return it.kind, stands, slots, it.rises, it.demands, it.brings, fails, can, makes

    def _costs(self, number: int) -> tuple[int, ...]:
        it = self.book.parts[number]
        loads = [(load.mass, load.centre) for load in it.loads] or [(0, 0)]
        arms = (-max(self.compiled.pivots.values(), default=0), 1 << 16)
        levers = [
            it.mass * (arm + it.centre) + mass * (arm + centre)
            for arm in arms
            for mass, centre in loads
        ]
        return (-it.bonus, *levers, *(-given for given in self._gives(number)))

    def _gives(self, number: int) -> tuple[int, int]:
        own = self.book.parts[number].gives
        if not own:
            return _PLENTY, _PLENTY
        heat, height, _, beside = (_PLENTY if given < 0 else given for given in own)
        return min(heat, beside), height

    # -- joints ------------------------------------------------------------------------

    def _takes(self) -> dict[tuple[int, int], tuple[str, ...]]:
        """By the kind that stands and the kind that carries, what the port takes."""
        takes: dict[tuple[int, int], tuple[str, ...]] = {}
        for part in self.parts:
            for port in part.carries:
                for kind in port.takes:
                    takes[_NUMBERS[kind], _NUMBERS[part.kind]] = port.takes
        return takes

    def kinds(self) -> None:
        """One root, and at most one of a kind."""
        out = self.out
        for numbers in self.by_kind.values():
            out.one_at_most([out.present[number] for number in numbers])
        out.any_of(out.present[number] for number in self.by_kind[_NUMBERS["base"]])

    def standing(self) -> None:
        """Whatever stands, stands on something of its port, and fits unless that is given up."""
        out = self.out
        for kind, numbers in self.by_kind.items():
            below = [carrier for one, carrier in self.takes if one == kind]
            for number in numbers:
                literals = [out.new() for _ in below] if len(below) > 1 else []
                literals = literals or [out.present[number]] * len(below)
                for carrier, literal in zip(below, literals, strict=True):
                    out.stands[number, carrier] = literal
                if len(below) > 1:
                    out.any_of([-out.present[number], *literals])
                    out.one_at_most(literals)
                    out.clauses += [[-it, out.present[number]] for it in literals]
        for (kind, carrier), takes in self.takes.items():
            self._fitting(kind, carrier, takes)

    def _fitting(self, kind: int, carrier: int, takes: tuple[str, ...]) -> None:
        out = self.out
        loose = [n for n in self.by_kind[carrier] if self._port(n, takes) is not None]
        somewhere = out.new()
        out.any_of([-somewhere, *(out.present[n] for n in loose)])
        fitting: defaultdict[int, list[int]] = defaultdict(list)
        for number in loose:
            slot = self.book.slots[number][self._port(number, takes) or 0]
            for one in slot.fits & self.keep:
                fitting[one].append(number)
        alike: defaultdict[tuple[int, ...], list[int]] = defaultdict(list)
        for number in self.by_kind[kind]:
            alike[tuple(fitting[number])].append(out.stands[number, carrier])
        held = self._joint(carrier, takes)
        for parents, literals in alike.items():
            carried = out.new()
            out.any_of([-carried, -held, *(out.present[p] for p in parents)])
            out.clauses += [[-it, carried] for it in literals]
            out.clauses += [[-it, somewhere] for it in literals]

    def _joint(self, carrier: int, takes: tuple[str, ...]) -> int:
        atom = (list(KINDS)[carrier], " or ".join(takes))
        at = list(self.compiled.atoms).index(atom)
        return self.claims[Claim("joint", f"{atom[0]}: {atom[1]}", at)]

    def _port(self, number: int, takes: tuple[str, ...]) -> int | None:
        ports = self.parts[number].carries
        return next((at for at, port in enumerate(ports) if port.takes == takes), None)

    def filling(self) -> None:
        """Required places are filled, others only for what is asked; one piece to a place."""
        out = self.out
        for (carrier, takes), kinds in self._ports().items():
            stands = [out.stands[n, carrier] for kind in kinds for n in self.by_kind[kind]]
            filled = out.new()
            out.any_of([-filled, *stands])
            for number in self.by_kind[carrier]:
                at = self._port(number, takes)
                if at is not None and self.parts[number].carries[at].need is Need.REQUIRED:
                    out.any_of([-out.present[number], filled])
            self._one_kind(carrier, kinds)
            if all(self._optional(n, takes) for n in self.by_kind[carrier]):
                self._useful(carrier, kinds)

    def _ports(self) -> dict[tuple[int, tuple[str, ...]], list[int]]:
        ports: defaultdict[tuple[int, tuple[str, ...]], list[int]] = defaultdict(list)
        for (kind, carrier), takes in self.takes.items():
            ports[carrier, takes].append(kind)
        return ports

    def _optional(self, number: int, takes: tuple[str, ...]) -> bool:
        at = self._port(number, takes)
        return at is None or self.parts[number].carries[at].need is not Need.REQUIRED

    def _one_kind(self, carrier: int, kinds: Sequence[int]) -> None:
        out = self.out
        for one, other in combinations(kinds, 2):
            which = out.new()
            for kind, sign in ((one, 1), (other, -1)):
                for number in self.by_kind[kind]:
                    out.any_of([-out.stands[number, carrier], sign * which])

    def _useful(self, carrier: int, kinds: Iterable[int]) -> None:
        """An optional place holds what is asked for, or what carries something asked for."""
        out = self.out
        brighter = [literal for ask, literal in self.asks if ask.ask == "brighter"]
        for kind in kinds:
            reasons = [*brighter, *self._asking(kind)]
            for one, below in self.takes:
                if below == kind and self._asking(one):
                    reasons += [out.stands[number, kind] for number in self.by_kind[one]]
            out.clauses += [[-out.stands[n, carrier], *reasons] for n in self.by_kind[kind]]

    def _asking(self, kind: int) -> list[int]:
        """The claims that ask for a kind."""
        name = list(KINDS)[kind]
        found = [
            literal
            for ask, literal in self.asks
            if ask.ask in ("present", "renew") and ask.kind == name
        ]
        sorts = ("keep", "replace")
        return found + [self.claims[c] for c in (Claim(s, name) for s in sorts) if c in self.claims]

    # -- having ------------------------------------------------------------------------

    def having(self) -> None:
        """What is there is kept, bought or comes with something bought, and passes the asks."""
        out = self.out
        bringers: defaultdict[int, list[int]] = defaultdict(list)
        for number in self.keep:
            out.bought[number] = out.new()
            out.any_of([-out.bought[number], out.present[number]])
            for one in self.book.parts[number].brings:
                bringers[one].append(number)
        for number in self.keep:
            part, here = self.parts[number], out.present[number]
            kept = [out.new()] if number in self.owned else []
            ways = [out.bought[n] for n in (number, *bringers[number])]
            out.any_of([-here, *kept, *ways])
            renewing = [it for ask, it in self.asks if ask.ask == "renew" and ask.kind == part.kind]
            out.clauses += [[-one, -it] for one in kept for it in renewing]
            self._buying(number, part, renewing)
            for ask, literal in self.tests:
                if not passes(part, ask, unsure=True):
                    out.any_of([-here, -literal])

    def _buying(self, number: int, part: Part, renewing: list[int]) -> None:
        out = self.out
        if not buyable(part, self.now.request.count):
            out.any_of([-out.bought[number], -self.claims[Claim("available", part.kind)]])
        makes = self.compiled.forms.get(part.id)
        for claim in (one for one in self.claims if one.sort == "form"):
            if makes is not None and claim.subject not in makes:
                out.any_of([-out.bought[number], -self.claims[claim]])
        if part.kind in BODY and any(one.kind == part.kind for one in self.now.owned):
            out.any_of([-out.bought[number], *renewing])

    # -- limits and the wish ---------------------------------------------------------------

    def demands(self) -> None:
        """Nothing is used over a burner that asks more, unless that rule is given up."""
        up, down = self.now.request.place.scale
        for entry, claim in enumerate((Claim("heat"), Claim("draft"))):
            scale = (1, 1) if entry == 0 else (up, down)
            asking = {
                number: -(-self.book.parts[number].demands[entry] * scale[0] // scale[1])
                for number in self.by_kind[_NUMBERS["burner"]]
                if self.book.parts[number].demands
            }
            self._levels(entry, {n: asks for n, asks in asking.items() if asks > 0}, claim)

    def _levels(self, entry: int, asking: dict[int, int], claim: Claim) -> None:
        out, held = self.out, self.claims[claim]
        levels = {level: out.new() for level in sorted(set(asking.values()))}
        for lower, upper in zip(levels.values(), list(levels.values())[1:], strict=False):
            out.any_of([-upper, lower])
        out.clauses += [[-out.present[n], -held, levels[asks]] for n, asks in asking.items()]
        for number in self.keep:
            given = self._gives(number)[entry]
            beyond = next((it for level, it in levels.items() if level > given), None)
            if beyond is not None:
                out.any_of([-out.present[number], -beyond])

    def wish(self) -> None:
        """Kinds that are asked for are there, unless another ask held says they are not."""
        out = self.out
        for kind, numbers in self.by_kind.items():
            name = list(KINDS)[kind]
            here = [out.present[number] for number in numbers]
            absent = [it for ask, it in self.asks if ask.ask == "absent" and ask.kind == name]
            for ask, literal in self.asks:
                if ask.ask in ("present", "renew") and ask.kind == name:
                    out.any_of([-literal, *here])
            for sort in ("keep", "replace"):
                literal = self.claims.get(Claim(sort, name), 0)
                if literal:
                    out.any_of([-literal, *here, *absent])

    # -- what comes of it ------------------------------------------------------------------

    def done(self) -> Insistence:
        """Hand over."""
        pieces = {number: self._piece(number) for number in self.keep}
        roots = frozenset(self.by_kind[_NUMBERS["base"]])
        found = Insistence(self.out, Problem(pieces, roots, frozenset(), None), self.claims)
        for ask, literal in self.asks:
            if ask.ask == "brighter":
                found.light = literal, self.now.light + int(ask.value or 1)
                lit = ((n, it.light) for n, it in pieces.items() if it.light)
                self.out.lights = [(self.out.present[n], light) for n, light in lit]
            if ask.ask == "service":
                electric = Service.ELECTRIC.value
                found.service = literal
                found.dry = (self.now.service.value == electric, ask.value == electric)
        if not found.service:
            found.dry = (self.now.service is Service.ELECTRIC,) * 2
        return found

    def _piece(self, number: int) -> Piece:
        it, part = self.book.parts[number], self.parts[number]
        places = [
            Place(
                frozenset(n for kind in port.takes for n in self.by_kind[_NUMBERS[kind]]),
                port.need is Need.REQUIRED,
                rise,
            )
            for port, rise in zip(part.carries, it.rises, strict=True)
        ]
        return Piece(
            number=number,
            kind=it.kind,
            price=0,
            owned=number in self.owned,
            dying=0,
            light=it.bonus,
            places=tuple(places),
            demands=(),
            gives=(),
            brings=(),
            mass=it.mass,
            centre=it.centre,
            loads=tuple((load.mass, load.centre) for load in it.loads),
            pivot=self.compiled.pivots.get(number),
        )
