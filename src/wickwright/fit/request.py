"""What a caller has and wants, turned into a query for the route search.

Everything that is insisted on is a :class:`Claim`. A query is built from a set of claims, so
that the same function serves the search itself, the question why there is no way, and the
question what would be possible if something were given up. A wish is only data here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickwright.catalogue.records import KINDS, Ask, Need, Service
from wickwright.fit.assemble import assemble
from wickwright.fit.compiled import KIND_BITS
from wickwright.fit.flags import weighed
from wickwright.fit.place import Place
from wickwright.fit.search.query import COSTS, Aim, Query
from wickwright.fit.search.tree import Admits
from wickwright.fit.wishes import MEASURED, resolved

if TYPE_CHECKING:
    from collections.abc import Collection, Hashable, Mapping, Sequence

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Lamp, Part, Wish
    from wickwright.fit.compiled import Compiled
    from wickwright.fit.light import Lights

__all__ = [
    "WISHES",
    "Claim",
    "Request",
    "Situation",
    "claims_of",
    "queries_of",
    "query_of",
    "situation",
]

WISHES = frozenset({"ask", "service", "keep", "replace", "budget", "form"})
"""Sorts of claim a caller may give up; the others are laws of the parts, or of the shelf."""

BODY = ("base", "font")
"""Kinds that make the lamp what it is: bought only where they are not there."""


@dataclass(frozen=True, slots=True)
class Request:
    """What a caller has and wants.

    Attributes
    ----------
    lamp : str
        Model, by id; its parts as sold are what the caller has.
    wish : Wish
        What is wanted.
    have : tuple of str
        Parts on the lamp that it was not sold with; each replaces the one of its kind.
    lost : tuple of str
        Kinds or part ids that are broken or gone.
    bare : bool
        True when the caller has nothing but ``have``.
    place : Place
        Where the lamp stands.
    count : int
        How many lamps are to be treated alike.
    budget : int or None
        Most money to be spent on one lamp, in the smallest coin.
    given_up : tuple of Claim
        What the caller would insist on, and does without. Laws of the parts are never given up.
    """

    lamp: str
    wish: Wish
    have: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()
    bare: bool = False
    place: Place = field(default_factory=Place)
    count: int = 1
    budget: int | None = None
    given_up: tuple[Claim, ...] = ()


@dataclass(frozen=True, slots=True)
class Claim:
    """Something that is insisted on and could be given up.

    Attributes
    ----------
    sort : str
        ``ask``, ``service``, ``keep``, ``replace``, ``budget``, ``available``, ``joint``,
        ``form``, ``heat``, ``draft`` or ``tip``.
    subject : str
        The kind, joint or ask it is about.
    index : int
        Which ask of the wish, or which atom of the tree.
    """

    sort: str
    subject: str = ""
    index: int = 0


@dataclass(frozen=True, slots=True)
class Situation:
    """A request looked at: what is in hand, how it stands now, what must be kept.

    Attributes
    ----------
    request : Request
        The request.
    owned : tuple of Part
        What the caller has and is not lost.
    now : Assembly
        It, put together, lost parts included.
    light : int
        Light points of the lamp as it was.
    service : Service
        What it burns.
    keeps : tuple of str
        Kinds of accessory that must not disappear.
    replaces : tuple of str
        Kinds lost that must be made good.
    lights : Lights or None
        Who knows how bright parts are together there; None goes by the book's light points.
    """

    request: Request
    owned: tuple[Part, ...]
    now: Assembly
    light: int
    service: Service
    keeps: tuple[str, ...]
    replaces: tuple[str, ...]
    lights: Lights | None = None

    @property
    def before(self) -> tuple[Part, ...]:
        """The parts of the lamp as it was, lost ones included."""
        return (*(it.part for it in self.now.walk()), *self.now.loose)

    def owned_of(self, kind: str) -> Part | None:
        """Return the part of a kind the caller has."""
        return next((part for part in self.owned if part.kind == kind), None)


def situation(compiled: Compiled, request: Request, lights: Lights | None = None) -> Situation:
    """Look at what a caller has.

    Parameters
    ----------
    compiled : Compiled
        The book.
    request : Request
        What the caller has and wants.
    lights : Lights or None
        Who knows how bright parts are together where the lamp stands.

    Returns
    -------
    Situation
        The parts in hand, put together.
    """
    book = compiled.book
    had = () if request.bare else book.lamps[request.lamp].as_sold
    by_kind = {book.parts[part].kind: book.parts[part] for part in had}
    by_kind |= {book.parts[part].kind: book.parts[part] for part in request.have}
    before = tuple(by_kind.values())
    lost = {kind for kind, part in by_kind.items() if {kind, part.id} & set(request.lost)}
    now = assemble(before, compiled.joiner)
    gone = tuple(sorted(lost | {kind for kind in request.lost if kind in KINDS}))
    return Situation(
        request=request,
        owned=tuple(part for part in before if part.kind not in lost),
        now=now,
        light=sum(part.light for part in before),
        service=_service(before, book.lamps[request.lamp].service),
        keeps=_kept(now, _needs(book.lamps[request.lamp], request, by_kind), lost),
        replaces=gone,
        lights=lights,
    )


def _service(parts: Sequence[Part], sold: Service) -> Service:
    burner = next((part for part in parts if part.kind == "burner"), None)
    return burner.service or sold if burner else sold


def _needs(lamp: Lamp, request: Request, parts: Mapping[str, Part]) -> tuple[str, ...]:
    """What its form needs; a bell too, when a lamp that can carry one is turned to oil."""
    asked = {ask.value for ask in request.wish.asks if ask.ask == "service"}
    base = parts.get("base")
    if Service.OIL in asked and lamp.service is not Service.OIL and base:
        return (
            *lamp.needs,
            *(kind for port in base.carries for kind in port.takes if kind == "bell"),
        )
    return lamp.needs


def _kept(now: Assembly, needs: Sequence[str], lost: Collection[str]) -> tuple[str, ...]:
    kinds = dict.fromkeys((*_accessories(now), *needs))
    return tuple(kind for kind in kinds if kind not in lost)


def _accessories(now: Assembly) -> tuple[str, ...]:
    """Kinds standing on a port that may stay empty and carrying nothing themselves."""
    return tuple(
        it.part.kind
        for it in now.walk()
        if it.on and it.on.need is Need.OPTIONAL and not it.part.carries
    ) + tuple(
        child.part.kind
        for it in now.walk()
        for child in it.carried
        if it.on and it.on.need is Need.OPTIONAL and child.on and child.on.need is Need.REQUIRED
    )


def claims_of(compiled: Compiled, now: Situation) -> tuple[Claim, ...]:
    """List all that a request insists on, what callers part with least willingly last.

    Parameters
    ----------
    compiled : Compiled
        The book.
    now : Situation
        The request, looked at.

    Returns
    -------
    tuple of Claim
        From the laws of the parts to the words of the wish.
    """
    asks = now.request.wish.asks
    claims = [
        Claim("joint", f"{below}: {above}", at)
        for at, (below, above) in enumerate(compiled.atoms)
        if at
    ]
    claims += [Claim("heat"), Claim("draft"), Claim("tip")]
    claims += [Claim("available", kind) for kind in KINDS]
    claims += _form_claims(compiled, now)
    claims += [Claim("keep", kind) for kind in now.keeps]
    claims += [Claim("replace", kind) for kind in now.replaces]
    if now.request.budget is not None:
        claims.append(Claim("budget"))
    if not any(ask.ask == "service" for ask in asks):
        claims.append(Claim("service", now.service.value))
    claims += [Claim("ask", ask.kind, at) for at, ask in enumerate(asks)]
    given_up = {claim for claim in now.request.given_up if claim.sort in WISHES}
    return tuple(claim for claim in claims if claim not in given_up)


def _form_claims(compiled: Compiled, now: Situation) -> list[Claim]:
    """A lamp that needs a new base keeps its form, unless the wish is about the base."""
    chosen = any(
        ask.kind == "base" and ask.ask in ("only", "never") for ask in now.request.wish.asks
    )
    if chosen or now.owned_of("base"):
        return []
    return [Claim("form", compiled.book.lamps[now.request.lamp].form.value)]


def query_of(
    compiled: Compiled,
    now: Situation,
    claims: Collection[Claim],
    *,
    admits: Admits = Admits.FITS,
    any_way: bool = False,
    trusting: Part | None = None,
) -> Query:
    """Turn claims into a query.

    A part in hand that was never weighed stays aside, where the lamp can tip.

    Parameters
    ----------
    compiled : Compiled
        The book.
    now : Situation
        The request, looked at.
    claims : collection of Claim
        What is insisted on.
    admits : Admits
        Whether joints of which nothing is known are let in.
    any_way : bool
        True when any way will do, whatever it costs.
    trusting : Part, optional
        A part in hand that was never weighed and has to be used. Nothing is refused for
        tipping then.

    Returns
    -------
    Query
        For :func:`wickwright.fit.search.solve.solve`.
    """
    request = now.request
    held = set(claims)
    asks = _asks(now, held)
    renewed = {ask.kind for ask in asks if ask.ask == "renew"}
    owned = [part for part in now.owned if part.kind not in renewed]
    able, usable, key = _masks(compiled, now, asks, owned, held, admits)
    required = _required(asks, held)
    stands = Claim("tip") in held and trusting is None
    if stands and _may_tip(compiled, owned):
        owned = [part for part in owned if weighed(part)]
    if trusting is not None:
        required |= KIND_BITS[trusting.kind]
        able, usable, key = _only(compiled, trusting, able, usable)
    most: dict[Aim, int] = {}
    brighter = [int(ask.value or 1) for ask in asks if ask.ask == "brighter"]
    if brighter:
        most[Aim.SHORTFALL] = -(now.light + max(brighter))
    if request.budget is not None and Claim("budget") in held:
        most[Aim.PRICE] = request.budget
    aims = () if any_way else COSTS
    return Query(
        root=compiled.root,
        owned=tuple(compiled.numbers[part.id] for part in owned),
        buyable=able,
        usable=usable,
        masks=key,
        required=required,
        scales=_scales(request.place, held),
        openings=_openings(compiled, owned, required, held),
        pivots=compiled.pivots if stands else {},
        dry=_service_of(asks, now) is Service.ELECTRIC,
        aims=tuple(sorted({*aims, *most})),
        most=most,
        admits=admits,
        loose=frozenset(range(1, len(compiled.atoms))).difference(
            claim.index for claim in held if claim.sort == "joint"
        ),
        effort=compiled.settings.effort,
    )


def _openings(
    compiled: Compiled, owned: Sequence[Part], required: int, held: Collection[Claim]
) -> tuple[tuple[int, ...], ...]:
    """Demands on burner and bell together, where a bell is going to hang there."""
    base = next((part for part in owned if part.kind == "base"), None)
    always = base is None or any(
        port.need is Need.REQUIRED and "bell" in port.takes for port in base.carries
    )
    hangs = always or required & KIND_BITS["bell"]
    return compiled.openings if hangs and Claim("heat") in held else ((),)


def _asks(now: Situation, held: Collection[Claim]) -> tuple[Ask, ...]:
    """The asks in force, the service that goes without saying among them."""
    asks = [
        ask for at, ask in enumerate(now.request.wish.asks) if Claim("ask", ask.kind, at) in held
    ]
    if Claim("service", now.service.value) in held:
        asks.append(Ask("service", value=now.service.value))
    return tuple(asks)


def _service_of(asks: Sequence[Ask], now: Situation) -> Service:
    for ask in asks:
        if ask.ask == "service":
            return Service(ask.value)
    return now.service


def _required(asks: Sequence[Ask], held: Collection[Claim]) -> int:
    kinds = {ask.kind for ask in asks if ask.ask in ("present", "renew") and ask.kind}
    absent = {ask.kind for ask in asks if ask.ask == "absent"}
    kinds |= {claim.subject for claim in held if claim.sort in ("keep", "replace")} - absent
    return sum(KIND_BITS[kind] for kind in kinds)


def _scales(place: Place, held: Collection[Claim]) -> tuple[tuple[int, int], ...]:
    heat = (1, 1) if Claim("heat") in held else (0, 1)
    return heat, place.scale if Claim("draft") in held else (0, 1)


def _masks(
    compiled: Compiled,
    now: Situation,
    asks: Sequence[Ask],
    owned: Sequence[Part],
    held: Collection[Claim],
    admits: Admits,
) -> tuple[bytes, bytes, tuple[Hashable, ...]]:
    """What may be bought and what may be used, remembered by what decides it."""
    lamp = compiled.book.lamps[now.request.lamp]
    tests = tuple(resolved(ask, lamp, now) for ask in asks if ask.ask in _OF_PARTS)
    whole = {part.kind for part in owned}
    body = tuple(kind for kind in BODY if kind in whole)
    scarce = {claim.subject for claim in held if claim.sort == "available"}
    free = tuple(kind for kind in KINDS if kind not in scarce)
    count = now.request.count
    unweighed = admits is Admits.UNSURE or not _may_tip(compiled, owned)
    unsure = admits is Admits.UNSURE and any(ask.field in MEASURED for ask in tests)
    form = next((claim.subject for claim in held if claim.sort == "form"), "")
    key = (tests, body, free, count, unweighed, unsure, form)
    found = compiled.masks.get(key)
    if found is None:
        flags = compiled.flags
        usable = flags.usable(tests, unsure=unsure)
        able = _of_form(compiled, form, flags.able(usable, body, free, count, unweighed))
        by_kind = flags.by_kind(able, usable)
        found = compiled.masks[key] = (able, usable, by_kind)
    return found


def _of_form(compiled: Compiled, form: str, able: bytes) -> bytes:
    """Let no base be bought that makes another form of lamp."""
    can_buy = bytearray(able)
    for base, forms in compiled.forms.items() if form else ():
        if form not in forms:
            can_buy[compiled.numbers[base]] = 0
    return bytes(can_buy)


def _only(
    compiled: Compiled, trusted: Part, able: bytes, usable: bytes
) -> tuple[bytes, bytes, tuple[Hashable, ...]]:
    """Let nothing of a part's kind be used but that part, and let it not be bought."""
    can_buy, can_use = bytearray(able), bytearray(usable)
    for at, part in enumerate(compiled.parts):
        if part.kind == trusted.kind:
            can_buy[at] = 0
            can_use[at] &= part.id == trusted.id
    buy, use = bytes(can_buy), bytes(can_use)
    return buy, use, compiled.flags.by_kind(buy, use)


def queries_of(
    compiled: Compiled,
    now: Situation,
    claims: Collection[Claim],
    *,
    admits: Admits,
    any_way: bool = False,
) -> tuple[Query, ...]:
    """Turn claims into queries that also use what is in hand and was never weighed.

    Parameters
    ----------
    compiled, now, claims, admits, any_way
        As for :func:`query_of`.

    Returns
    -------
    tuple of Query
        The one of :func:`query_of` first. Where the lamp can tip, one more for each part in
        hand that was never weighed.
    """
    plain = query_of(compiled, now, claims, admits=admits, any_way=any_way)
    held = set(claims)
    renewed = {ask.kind for ask in _asks(now, held) if ask.ask == "renew"}
    owned = [part for part in now.owned if part.kind not in renewed]
    if Claim("tip") not in held or not _may_tip(compiled, owned):
        return (plain,)
    more = (
        query_of(compiled, now, claims, admits=admits, any_way=any_way, trusting=part)
        for part in owned
        if not weighed(part)
    )
    return (plain, *more)


def _may_tip(compiled: Compiled, owned: Sequence[Part]) -> bool:
    """Tell whether the lamp can tip; one without a base may be given any."""
    base = next((part for part in owned if part.kind == "base"), None)
    return base is None or compiled.numbers[base.id] in compiled.pivots


_OF_PARTS = ("only", "never", "absent", "service")
"""Asks that speak of single parts."""
