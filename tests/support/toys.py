"""Toy trees for the route search, and a judge that tries everything."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickwright.fit.search.building import build_tree
from wickwright.fit.search.query import Aim, How, Query
from wickwright.fit.search.tree import UNKNOWN, Admits, Candidate, Load, Socket, Tree

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from wickwright.fit.search.tree import Node

__all__ = ["Placing", "costs_of", "every_way", "judge_front", "random_query", "random_tree"]

KINDS = 7


@dataclass(frozen=True)
class Placing:
    """One filling found by trying everything."""

    node: Node | None
    kinds: int


def random_tree(rng: random.Random, each: int = 4) -> Tree:
    """Make a toy: a root, a stem, heads with two or three sockets, and leaves."""
    candidates: list[Candidate] = []
    sockets: list[Socket] = []
    levels: dict[int, list[int]] = {}
    for kind in reversed(range(KINDS)):
        levels[kind] = []
        for _ in range(rng.randint(1, each)):
            offers = _offers(rng, kind, levels, sockets)
            levels[kind].append(len(candidates))
            candidates.append(_candidate(rng, kind, offers, levels))
    sockets.append(Socket(required=True, fits=frozenset(levels[0])))
    return build_tree(candidates, sockets)


def _offers(
    rng: random.Random, kind: int, levels: dict[int, list[int]], sockets: list[Socket]
) -> tuple[int, ...]:
    """Sockets for deeper kinds; some shared with earlier candidates, some new."""
    offers: list[int] = []
    for _ in range(rng.choice((0, 1, 2, 3)) if kind else 2):
        deeper = [k for k in levels if k > kind]
        if not deeper:
            break
        kinds = rng.sample(deeper, k=min(len(deeper), rng.choice((1, 1, 2))))
        pool = [n for k in kinds for n in levels[k]]
        fits = frozenset(n for n in pool if rng.random() < 0.6)
        unsure = frozenset(n for n in pool if n not in fits and rng.random() < 0.2)
        atom = rng.randint(1, 3)
        sockets.append(Socket(rng.random() < 0.5, fits, unsure, frozenset(pool), atom))
        offers.append(len(sockets) - 1)
    if sockets and rng.random() < 0.3 and kind == 1:
        offers.append(rng.randrange(len(sockets)))
    return tuple(offers)


def _candidate(
    rng: random.Random, kind: int, offers: tuple[int, ...], levels: dict[int, list[int]]
) -> Candidate:
    deeper = [n for k, numbers in levels.items() if k > kind for n in numbers]
    return Candidate(
        kind=kind,
        price=rng.randint(0, 12),
        dying=rng.randint(0, 1),
        bonus=rng.randint(0, 3),
        sockets=offers,
        rises=tuple(rng.randint(0, 9) for _ in offers),
        demands=(rng.randint(0, 3), rng.randint(0, 2)) if rng.random() < 0.4 else (),
        gives=(rng.choice((0, 1, 2, 3, 9, UNKNOWN)), rng.randint(0, 5))
        if rng.random() < 0.6
        else (),
        brings=tuple(rng.sample(deeper, k=1)) if deeper and rng.random() < 0.3 else (),
        mass=rng.randint(0, 9),
        centre=rng.randint(0, 6),
        loads=(Load(0, 0), Load(rng.randint(1, 9), 3)) if rng.random() < 0.2 else (),
    )


def random_query(rng: random.Random, tree: Tree) -> Query:
    """Ask something of a toy, with damaged and odd ownership."""
    size = len(tree.candidates)
    owned = tuple(sorted(rng.sample(range(size), k=rng.randint(0, size // 2))))
    aims = rng.choice(
        (
            (Aim.PRICE, Aim.BOUGHT, Aim.DYING),
            (Aim.PRICE, Aim.BOUGHT, Aim.DYING, Aim.SHORTFALL),
            (Aim.PRICE,),
            (),
        )
    )
    roots = [n for n, it in enumerate(tree.candidates) if it.kind == 0]
    pivots = {n: rng.randint(2, 25) for n in roots if rng.random() < 0.8}
    buyable = bytes(rng.random() < 0.8 for _ in range(size))
    usable = bytes(rng.random() < 0.9 for _ in range(size))
    query = Query(
        root=len(tree.sockets) - 1,
        owned=owned,
        buyable=bytes(b & u for b, u in zip(buyable, usable, strict=True)),
        usable=usable,
        masks=((buyable, usable),) * KINDS,
        required=sum(1 << k for k in range(1, KINDS) if rng.random() < 0.25),
        scales=((rng.randint(0, 3), 2), (1, 1)),
        openings=rng.choice((((),), ((),), ((0, 2), (2, 0)), ((1, 1),))),
        pivots=pivots,
        dry=rng.random() < 0.3,
        aims=aims,
        admits=rng.choice((Admits.FITS, Admits.UNSURE)),
        loose=frozenset(rng.sample((1, 2, 3), k=rng.choice((0, 0, 1)))),
    )
    if Aim.SHORTFALL in aims and rng.random() < 0.5:
        query = replace(query, most={Aim.SHORTFALL: -rng.randint(1, 8)})
    return query


def every_way(tree: Tree, query: Query) -> Iterator[Node]:
    """Fill the tree in every possible way that is complete and within its limits."""
    kits = frozenset((n, int(How.KEPT)) for n in query.owned)
    placings = (
        placing
        for opening in query.openings
        for placing in _fill(tree, query, query.root, (*opening, 0, 0)[:2], kits, 0)
    )
    for placing in placings:
        node = placing.node
        if node and placing.kinds & query.required == query.required and _stands(tree, query, node):
            costs = costs_of(tree, query, node)
            if all(costs[aim] <= most for aim, most in query.most.items()):
                yield node


def _fill(
    tree: Tree,
    query: Query,
    socket_number: int,
    demands: tuple[int, ...],
    kits: frozenset[tuple[int, int]],
    above: int,
) -> Iterator[Placing]:
    socket = tree.sockets[socket_number]
    if not socket.required:
        yield Placing(None, 0)
    fits = socket.fits
    if query.admits is Admits.UNSURE:
        fits = fits | socket.unsure
    if socket.atom in query.loose:
        fits = socket.loosened
    at_hand = [(n, how, kits - {(n, how)}) for n, how in kits if query.usable[n]]
    shop = [(n, int(How.BOUGHT), kits) for n in range(len(query.buyable)) if query.buyable[n]]
    for number, how, rest in at_hand + shop:
        if number in fits:
            for placing in _place(tree, query, number, how, demands, rest, above):
                useful = socket.required or placing.kinds & query.required
                if useful or Aim.SHORTFALL in query.aims:
                    yield placing


def _place(
    tree: Tree,
    query: Query,
    number: int,
    how: int,
    demands: tuple[int, ...],
    kits: frozenset[tuple[int, int]],
    above: int,
) -> Iterator[Placing]:
    it = tree.candidates[number]
    if 1 << it.kind & above or not _bears(it, query, demands):
        return
    if how == How.BOUGHT:
        kits = kits | {(n, int(How.INCLUDED)) for n in it.brings}
    scaled = [-(-d * up // down) for d, (up, down) in zip(it.demands, query.scales, strict=False)]
    below = (
        max(demands[0], scaled[0] if scaled else 0),
        max(demands[1], scaled[1] if scaled else 0),
    )
    yield from _combine(tree, query, it, (number, how), below, kits, above | 1 << it.kind)


def _combine(
    tree: Tree,
    query: Query,
    it: Candidate,
    placed: tuple[int, int],
    below: tuple[int, ...],
    kits: frozenset[tuple[int, int]],
    above: int,
) -> Iterator[Placing]:
    partial: list[tuple[tuple[Node | None, ...], int]] = [((), 1 << it.kind)]
    for socket in it.sockets:
        options = list(_fill(tree, query, socket, below, kits, above))
        partial = [
            ((*nodes, option.node), kinds | option.kinds)
            for nodes, kinds in partial
            for option in options
            if not kinds & option.kinds
        ]
    for nodes, kinds in partial:
        yield Placing((*placed, nodes), kinds)


def _bears(it: Candidate, query: Query, demands: tuple[int, ...]) -> bool:
    if not it.gives:
        return True
    for given, wanted in zip(it.gives, demands, strict=True):
        if given == UNKNOWN:
            if wanted > 0 and query.admits is not Admits.UNSURE:
                return False
        elif given < wanted:
            return False
    return True


def _stands(tree: Tree, query: Query, root: Node) -> bool:
    """Weigh the tree about its pivot at every load, from heights above the ground."""
    pivot = query.pivots.get(root[0])
    if pivot is None:
        return True
    weights: list[tuple[int, int, tuple[Load, ...]]] = []
    _weigh(tree, root, 0, weights)
    total = sum(mass * (height - pivot) for mass, height, _ in weights)
    if not query.dry:
        for _, height, loads in weights:
            if loads:
                total += max(load.mass * (height + load.centre - pivot) for load in loads)
    return total <= 0


def _weigh(
    tree: Tree, node: Node, foot: int, into: list[tuple[int, int, tuple[Load, ...]]]
) -> None:
    it = tree.candidates[node[0]]
    into.append((it.mass, foot + it.centre, ()))
    into.append((0, foot, it.loads))
    for child, rise in zip(node[2], it.rises, strict=True):
        if child is not None:
            _weigh(tree, child, foot + rise, into)


def costs_of(tree: Tree, query: Query, node: Node) -> tuple[int, ...]:
    """Add up what a filling costs, aim by aim; aims not asked for count nothing."""
    it = tree.candidates[node[0]]
    bought = node[1] == How.BOUGHT
    own = (it.price if bought else 0, int(bought), it.dying, -it.bonus, 0)
    total = tuple(c if Aim(a) in query.aims else 0 for a, c in enumerate(own))
    for child in node[2]:
        if child is not None:
            total = tuple(a + b for a, b in zip(total, costs_of(tree, query, child), strict=True))
    return total


def judge_front(tree: Tree, query: Query) -> set[tuple[int, ...]]:
    """The unbeaten costs among every way, by comparing all pairs."""
    costs = {costs_of(tree, query, node) for node in every_way(tree, query)}
    return {
        one
        for one in costs
        if not any(
            other != one and all(a <= b for a, b in zip(other, one, strict=True)) for other in costs
        )
    }
