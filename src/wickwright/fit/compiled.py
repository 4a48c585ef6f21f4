"""A book made ready for the route search."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS, Need, Status
from wickwright.catalogue.succession import successions
from wickwright.fit.assemble import assemble
from wickwright.fit.classes import Verdicts, port_class, port_classes, unmeasured
from wickwright.fit.flags import Flags
from wickwright.fit.joiner import Joiner
from wickwright.fit.neighbours import Neighbours
from wickwright.fit.search.building import build_tree
from wickwright.fit.search.memory import Memory
from wickwright.fit.search.packs import PLENTY
from wickwright.fit.search.tree import UNKNOWN, Candidate, Load, Socket
from wickwright.fit.settings import Settings
from wickwright.fit.stance import base_reach, fuel_load

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping, Sequence

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Book, Part, Port
    from wickwright.fit.classes import Classes, PortClass
    from wickwright.fit.joints.verdict import Fit
    from wickwright.fit.light import Lights
    from wickwright.fit.search.jointly import Jointly
    from wickwright.fit.search.tree import Tree

__all__ = [
    "GLASSY",
    "HEATED",
    "KIND_BITS",
    "KIND_NUMBERS",
    "LENGTH_UNIT",
    "LIT",
    "Atom",
    "Compiled",
    "compile_book",
    "heat_of",
]

MASS_UNIT = 1e-4
"""Mass in the search is counted in tenths of a gram [kg]."""

LENGTH_UNIT = 1e-4
"""Height in the search is counted in tenths of a millimetre [m]."""

KIND_NUMBERS: dict[str, int] = {kind: at for at, kind in enumerate(KINDS)}
KIND_BITS: dict[str, int] = {kind: 1 << at for kind, at in KIND_NUMBERS.items()}
LIT = ("burner", "chimney", "mantle")
"""Kinds that give their light together, where somebody can say how much."""

HEATED = frozenset({"chimney", "shade"})
"""Kinds that stand in the heat of the burner below them and must be rated for it."""

GLASSY = frozenset({"glass", "soda-glass", "cloth", "parchment", "porcelain"})
"""Materials whose heat rating must be stated; bare metal stands the heat of a lamp."""

Atom = tuple[str, str]
"""A joint that can be given up: the kind that carries, the kinds that stand."""


@dataclass
class Compiled:
    """A book with everything the route search needs.

    Attributes
    ----------
    book : Book
        The fit book.
    settings : Settings
        Limits in force.
    parts : sequence of Part
        By candidate number.
    numbers : mapping of str to int
        Candidate number by part id.
    atoms : sequence of Atom
        By atom number; entry 0 stands for the root.
    root : int
        Socket class of the root.
    memory : Memory
        The compiled tree and what is remembered of it.
    verdicts : Verdicts
        Judged pairs, for the next edition of the book.
    classes : Classes
        The different ports of the book, and which fit which.
    together : frozenset of pairs of PortClass
        Ports that left the works joined though their sizes cannot tell.
    masks : dict
        What may be bought and used, by all that decides it.
    lights : dict
        Who knows how bright parts are together, by place and room; kept by whoever hands
        them in.
    together_lit : dict
        What the parts that may be used earn together, by who knows it and what they are.
    """

    book: Book
    settings: Settings
    parts: Sequence[Part]
    numbers: Mapping[str, int]
    atoms: Sequence[Atom]
    root: int
    memory: Memory
    verdicts: Verdicts
    classes: Classes
    together: frozenset[tuple[PortClass, PortClass]] = frozenset()
    masks: dict[Hashable, tuple[bytes, bytes, tuple[Hashable, ...]]] = field(default_factory=dict)
    lights: dict[Hashable, Lights] = field(default_factory=dict)
    together_lit: dict[Hashable, Jointly] = field(default_factory=dict)

    @cached_property
    def flags(self) -> Flags:
        """One byte for each part: what passes which test."""
        return Flags(self.parts)

    @property
    def tree(self) -> Tree:
        """The compiled tree."""
        return self.memory.tree

    @cached_property
    def unlit(self) -> Memory:
        """The compiled tree where what gives light together has no bonus of its own."""
        lit = {KIND_NUMBERS[kind] for kind in LIT}
        candidates = [
            replace(it, bonus=0) if it.bonus and it.kind in lit else it
            for it in self.tree.candidates
        ]
        return Memory(replace(self.tree, candidates=candidates, groups={}))

    @cached_property
    def joiner(self) -> Joiner:
        """Judge of single joints."""
        return Joiner(self.settings, self.together)

    @cached_property
    def neighbours(self) -> Neighbours:
        """Which parts fit each port of each part."""
        return Neighbours(self.parts, self.classes)

    @cached_property
    def openings(self) -> tuple[tuple[int, ...], ...]:
        """Demands on the whole lamp of which one set must be met.

        A bell hangs beside the burner, not on it. So for each rating of a bell: burners up
        to it and bells from it.
        """
        rated = {part.heat_rating for part in self.parts if part.kind == "bell"}
        marks = {math.floor(rating) for rating in rated if rating is not None} | {PLENTY}
        return tuple((0, 0, PLENTY - mark, mark) for mark in sorted(marks))

    @cached_property
    def pivots(self) -> dict[int, int]:
        """Pivot height of each base that can tip, in :data:`LENGTH_UNIT`."""
        slope = math.tan(self.settings.limit.angle)
        found: dict[int, int] = {}
        for part in self.parts:
            if part.kind == "base" and part.support:
                reach = base_reach(part.support)
                if math.isfinite(reach):
                    found[self.numbers[part.id]] = math.floor(reach / slope / LENGTH_UNIT)
        return found

    @cached_property
    def forms(self) -> dict[str, frozenset[str]]:
        """Forms of lamp each base makes, by the lamps it or what it replaced was sold on.

        A base that was sold on none is left out: nobody wrote down what it makes.
        """
        found: dict[str, set[str]] = {}
        for lamp in self.book.lamps.values():
            for number in lamp.as_sold:
                part = self.book.parts[number]
                if part.kind == "base":
                    for one in (part, *(step.new for step in successions(self.book, part))):
                        found.setdefault(one.id, set()).add(lamp.form.value)
        return {base: frozenset(forms) for base, forms in found.items()}

    def sold(self, lamp: str) -> Assembly:
        """Return a lamp as it left the works."""
        parts = [self.book.parts[part] for part in self.book.lamps[lamp].as_sold]
        return assemble(parts, self.joiner)


def compile_book(
    book: Book, settings: Settings | None = None, before: Compiled | Verdicts | None = None
) -> Compiled:
    """Make a book ready for the route search.

    Parameters
    ----------
    book : Book
        A checked fit book.
    settings : Settings, optional
        Limits in force.
    before : Compiled or Verdicts, optional
        An earlier edition, or what was kept of one, under the same settings: pairs of ports
        judged there are not judged again.

    Returns
    -------
    Compiled
        Ready for any number of queries.
    """
    settings = settings or Settings()
    verdicts = Verdicts(dict(_kept(before, settings)))
    parts = tuple(book.parts.values())
    numbers = {part.id: at for at, part in enumerate(parts)}
    together = frozenset(_sold_pairs(book, Joiner(settings)))
    classes = port_classes(parts, settings, together, verdicts)
    builder = _Sockets(parts, classes)
    candidates = [_candidate(part, numbers, builder.of_part(part), settings) for part in parts]
    root = builder.root()
    return Compiled(
        book=book,
        settings=settings,
        parts=parts,
        numbers=numbers,
        atoms=tuple(builder.atoms),
        root=root,
        memory=Memory(build_tree(candidates, builder.sockets)),
        verdicts=verdicts,
        classes=classes,
        together=together,
    )


def _kept(
    before: Compiled | Verdicts | None, settings: Settings
) -> Mapping[tuple[PortClass, PortClass], Fit]:
    """What was judged before and still holds."""
    if isinstance(before, Compiled):
        return before.verdicts.known if before.settings == settings else {}
    return before.known if before else {}


def _sold_pairs(book: Book, joiner: Joiner) -> Iterable[tuple[PortClass, PortClass]]:
    """The pairs of ports that left the works joined and whose sizes cannot tell."""
    vague = {part.id for part in book.parts.values() if any(map(unmeasured, part.ports))}
    for lamp in book.lamps.values():
        if vague.isdisjoint(lamp.as_sold):
            continue
        sold = assemble([book.parts[part] for part in lamp.as_sold], joiner)
        for below, above in sold.joints():
            if above.on and above.by and above.on.joint != "lampholder":
                yield port_class(below.part, above.on), port_class(above.part, above.by)


class _Sockets:
    """Socket classes as they turn up, part by part."""

    def __init__(self, parts: Sequence[Part], classes: Classes) -> None:
        self.classes = classes
        self.sockets: list[Socket] = []
        self.atoms: list[Atom] = [("", "base")]
        self._known: dict[tuple[object, ...], int] = {}
        self._atom_numbers: dict[Atom, int] = {self.atoms[0]: 0}
        self._kinds = [part.kind for part in parts]
        self._of_kind: dict[tuple[str, ...], frozenset[int]] = {}

    def of_part(self, part: Part) -> list[tuple[int, Port]]:
        """Return the socket class of each carrying port of a part."""
        return [(self._of_port(part, port), port) for port in part.carries]

    def root(self) -> int:
        """Return the class of the root: any base."""
        bases = self.everyone(("base",))
        self.sockets.append(Socket(required=True, fits=bases, loosened=bases))
        return len(self.sockets) - 1

    def everyone(self, takes: tuple[str, ...]) -> frozenset[int]:
        """Return all parts of the given kinds."""
        found = self._of_kind.get(takes)
        if found is None:
            found = self._of_kind[takes] = frozenset(
                number for number, kind in enumerate(self._kinds) if kind in takes
            )
        return found

    def _of_port(self, part: Part, port: Port) -> int:
        carrying = port_class(part, port)
        key = (carrying, part.kind, port.takes, port.need is Need.REQUIRED)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = len(self.sockets)
            self.sockets.append(
                Socket(
                    required=port.need is Need.REQUIRED,
                    fits=self._members(self.classes.fits[carrying], port.takes),
                    unsure=self._members(self.classes.unsure[carrying], port.takes),
                    loosened=self.everyone(port.takes),
                    atom=self._atom((part.kind, " or ".join(port.takes))),
                )
            )
        return found

    def _members(self, standing: Iterable[PortClass], takes: tuple[str, ...]) -> frozenset[int]:
        kinds, holders = self._kinds, self.classes.standing
        return frozenset(
            number for key in standing for number in holders[key] if kinds[number] in takes
        )

    def _atom(self, atom: Atom) -> int:
        found = self._atom_numbers.get(atom)
        if found is None:
            found = self._atom_numbers[atom] = len(self.atoms)
            self.atoms.append(atom)
        return found


def heat_of(part: Part) -> float:
    """Return the heat a part gives off in service.

    Parameters
    ----------
    part : Part
        A burner, or an electric body with a lampholder.

    Returns
    -------
    float
        Its own heat, or the most its lampholder allows [W].
    """
    limits = [port.numbers.get("limit", 0.0) for port in part.carries if port.joint == "lampholder"]
    return max([part.heat, *limits])


def _candidate(
    part: Part, numbers: Mapping[str, int], sockets: list[tuple[int, Port]], settings: Settings
) -> Candidate:
    stand = min((port.height for port in part.stands), default=0.0)
    burner = part.kind == "burner"
    return Candidate(
        kind=KIND_NUMBERS[part.kind],
        price=part.price or 0,
        dying=int(part.status is not Status.MADE),
        bonus=part.light,
        sockets=tuple(number for number, _ in sockets),
        rises=tuple(_at_least(port.height - stand) for _, port in sockets),
        demands=(math.ceil(heat_of(part)), _nearest(part.least_chimney or 0.0)) if burner else (),
        gives=_gives(part),
        brings=tuple(numbers[one] for one in part.includes),
        mass=0 if part.kind == "tool" else round((part.mass or 0.0) / MASS_UNIT),
        centre=_at_least((part.centre or 0.0) - stand),
        loads=_loads(part, stand, settings),
    )


def _nearest(length: float) -> int:
    return round(length / LENGTH_UNIT)


def _at_least(height: float) -> int:
    """Count a height, rounded up: nothing may stand here that tips when weighed exactly."""
    return math.ceil(round(height / LENGTH_UNIT, 6))


def _gives(part: Part) -> tuple[int, ...]:
    """What a part bears: heat below it, height as a chimney, its heat kept low, heat beside."""
    if part.kind == "burner":
        return PLENTY, PLENTY, PLENTY - math.ceil(heat_of(part)), PLENTY
    if part.kind == "bell":
        return PLENTY, PLENTY, PLENTY, _rated(part)
    if part.kind not in HEATED:
        return ()
    if part.kind != "chimney":
        return _rated(part), PLENTY, PLENTY, PLENTY
    return _rated(part), UNKNOWN if part.height is None else _nearest(part.height), PLENTY, PLENTY


def _rated(part: Part) -> int:
    if part.heat_rating is not None:
        return math.floor(part.heat_rating)
    return PLENTY if part.material not in GLASSY else UNKNOWN


def _loads(part: Part, stand: float, settings: Settings) -> tuple[Load, ...]:
    if part.fuel is None:
        return ()
    loads = []
    for fill in settings.fills:
        mass, height = fuel_load(part.fuel, fill, settings.fuel_density)
        loads.append(Load(math.ceil(mass / MASS_UNIT), _at_least(height - stand)))
    return tuple(loads)
