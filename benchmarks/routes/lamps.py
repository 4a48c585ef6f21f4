"""Kits, successors and lamps as sold: put together from an invented maker's parts."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickwright.catalogue.records import Footing, Form, Lamp, Need, Part, Service, Status
from wickwright.fit.place import Place
from wickwright.fit.search.balance import leverage_of
from wickwright.fit.search.query import How

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from benchmarks.routes.draw import Draw

    from wickwright.fit.compiled import Compiled
    from wickwright.fit.search.tree import Node

__all__ = ["Works", "succeeded"]

_OPTIONAL = {"holder": 0.35, "shade": 1.0, "bell": 1.0, "tool": 0.1, "chimney": 0.2}
"""How often a port that may stay empty is filled when a lamp leaves the works."""

_MOST_TRIES = 400


class Works:
    """Puts lamps together at random from what fits.

    Parameters
    ----------
    draw : Draw
        The book's own chance.
    compiled : Compiled
        The parts, compiled without lamps: tells what fits.
    """

    def __init__(self, draw: Draw, compiled: Compiled) -> None:
        self.draw, self.compiled, self.tree = draw, compiled, compiled.tree

    # -- lamps ---------------------------------------------------------------------

    def lamps(self) -> Iterator[Lamp]:
        """Yield complete lamps that stand, draw and bear their heat at sea level."""
        bases = [at for at, part in enumerate(self.compiled.parts) if part.kind == "base"]
        made = tries = 0
        while made < self.draw.scale.lamps:
            tries += 1
            if tries > _MOST_TRIES * self.draw.scale.lamps:
                msg = f"only {made} lamps could be put together: draw other sizes"
                raise RuntimeError(msg)
            service = Service.ELECTRIC if self.draw.happens(0.08) else Service.OIL
            node = self._stood(self.draw.rng.choice(bases), service)
            if node and self._stands(node, service):
                made += 1
                yield self._lamp(made, node, service)

    def _stands(self, node: Node, service: Service) -> bool:
        pivot = self.compiled.pivots.get(node[0])
        dry = service is Service.ELECTRIC
        return pivot is None or leverage_of(self.tree, node, -pivot, dry=dry) <= 0

    def _lamp(self, number: int, node: Node, service: Service) -> Lamp:
        parts = [self.compiled.parts[at] for at in _numbers(node)]
        form = self._form(parts[0])
        return Lamp(
            id=f"LAMP-{number:04}",
            name=f"Lamp {number}",
            family="all",
            form=form,
            service=service,
            first=max(part.first or 0 for part in parts),
            last=None,
            needs=("bell",) if form is Form.HANGING else (),
            as_sold=tuple(part.id for part in parts),
        )

    def _form(self, base: Part) -> Form:
        support = base.support
        if support is None or support.footing is Footing.FIXED:
            return Form.BRACKET
        if support.footing is Footing.HUNG:
            return Form.HANGING
        if support.footing is Footing.FEET:
            return Form.SHELF
        return Form.FLOOR if support.radius > 0.12 else Form.TABLE

    def _stood(self, number: int, service: Service, burner: Part | None = None) -> Node | None:
        """Stand a part and fill its ports at random; None where a port cannot be filled."""
        part = self.compiled.parts[number]
        burner = part if part.kind == "burner" else burner
        below: list[Node | None] = []
        for at, socket in enumerate(self.tree.candidates[number].sockets):
            port = part.carries[at]
            child: Node | None = None
            if port.need is Need.REQUIRED or self.draw.happens(_OPTIONAL[port.takes[0]]):
                child = self._filled(socket, service, burner)
                if child is None and port.need is Need.REQUIRED:
                    return None
            below.append(child)
        return (number, int(How.KEPT), tuple(below))

    def _filled(self, socket: int, service: Service, burner: Part | None) -> Node | None:
        fits = sorted(self.tree.sockets[socket].fits)
        wanted = [at for at in fits if _suits(self.compiled.parts[at], service, burner)]
        if not wanted:
            return None
        return self._stood(self.draw.rng.choice(wanted), service, burner)

    # -- kits and successors -----------------------------------------------------------

    def kits(self) -> Iterator[Part]:
        """Yield every part, some burners with what comes with them in place."""
        for number, part in enumerate(self.compiled.parts):
            if part.kind == "burner" and self.draw.happens(0.25):
                yield self._kit(number, part)
            else:
                yield part

    def _kit(self, number: int, part: Part) -> Part:
        """A burner with its wick, spreader, gallery and mantle, or with its bulb."""
        service = part.service or Service.OIL
        node = self._stood(number, service)
        if node is None:
            return part
        kept = ("wick", "spreader", "gallery", "mantle", "bulb")
        inside = [self.compiled.parts[at] for at in _numbers(node)]
        brings = tuple(one.id for one in inside if one.kind in kept)
        price = None if part.price is None else part.price + 500 * len(brings)
        return replace(part, includes=brings, price=price, name=f"{part.name}, kit")


def _suits(part: Part, service: Service, burner: Part | None) -> bool:
    """Whether a part belongs on a lamp of the service with this burner, at sea level."""
    if part.kind == "reducer" or part.service not in (None, service):
        return False
    if burner is None or part.kind not in ("chimney", "shade"):
        return True
    heat = max([burner.heat, *(port.numbers.get("limit", 0.0) for port in burner.carries)])
    if part.heat_rating is None or part.heat_rating < heat:
        return False
    least = Place().chimney_needed(burner.least_chimney or 0.0)
    return part.kind == "shade" or (part.height or 0.0) >= least


def _numbers(node: Node) -> Iterator[int]:
    number, _, below = node
    yield number
    for child in below:
        if child is not None:
            yield from _numbers(child)


def succeeded(parts: Sequence[Part]) -> Iterator[Part]:
    """Yield every part; those no longer made name one that stands by the same size."""
    current: dict[tuple[str, ...], str] = {}
    for part in parts:
        if part.status is Status.MADE:
            current.setdefault(_seat(part), part.id)
    for part in parts:
        gone = part.status is not Status.MADE
        yield replace(part, successor=current.get(_seat(part), "")) if gone else part


def _seat(part: Part) -> tuple[str, ...]:
    return part.kind, *(port.label for port in part.stands)
