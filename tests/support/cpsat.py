"""A general solver asked the same as the route search, from the tree alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ortools.sat.python import cp_model

from wickwright.fit.search.query import Aim, How, Query
from wickwright.fit.search.tree import UNKNOWN, Admits, Candidate, Tree

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["cheapest"]

_FAR = 10**6
"""Beyond any height or leverage of a toy."""


def cheapest(tree: Tree, query: Query, weights: Mapping[Aim, int]) -> int | None:
    """Return the least weighted sum of costs of any way to fill a tree.

    Parameters
    ----------
    tree : Tree
        Toy in which no kind can stand above itself.
    query : Query
        What is asked; its aims are replaced by ``weights``.
    weights : mapping of Aim to int
        Weight of each cost.

    Returns
    -------
    int or None
        None when there is no way.
    """
    model = _Model(tree, query)
    model.cp.minimize(sum(weight * model.cost(aim) for aim, weight in weights.items()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    status = solver.solve(model.cp)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL
    return round(solver.objective_value)


class _Model:
    """One boolean for each candidate placed in each way, and for each pair that may join."""

    def __init__(self, tree: Tree, query: Query) -> None:
        self.tree, self.query = tree, query
        self.cp = cp_model.CpModel()
        everyone = range(len(tree.candidates))
        self.how = {
            (number, how): self.cp.new_bool_var(f"{number} {how.name}")
            for number in everyone
            for how in How
        }
        self.roots = {n: self.cp.new_bool_var(f"root {n}") for n in self._members(query.root)}
        self.joins = {
            (below, at, above): self.cp.new_bool_var(f"{above} on {below}")
            for below in everyone
            for at, socket in enumerate(tree.candidates[below].sockets)
            for above in self._members(socket)
        }
        self.placed = {n: self.cp.new_bool_var(f"{n}") for n in everyone}
        self.under = {
            (below, above): self.cp.new_bool_var(f"{above} over {below}")
            for below in everyone
            for above in everyone
        }
        self._tree_shape()
        self._ancestors()
        self._supply()
        self._demands()
        self._balance()
        self._limits()

    def cost(self, aim: Aim) -> cp_model.LinearExprT:
        """Return one cost of the tree."""
        bought = [(self.how[n, How.BOUGHT], it) for n, it in enumerate(self.tree.candidates)]
        match aim:
            case Aim.PRICE:
                return sum(it.price * flag for flag, it in bought)
            case Aim.BOUGHT:
                return sum(flag for flag, _ in bought)
            case Aim.DYING:
                return sum(it.dying * flag for flag, it in self._standing())
            case _:
                return sum(-it.bonus * flag for flag, it in self._standing())

    def _standing(self) -> Iterator[tuple[cp_model.IntVar, Candidate]]:
        for number, it in enumerate(self.tree.candidates):
            yield self.placed[number], it

    def _members(self, socket_number: int) -> frozenset[int]:
        socket = self.tree.sockets[socket_number]
        if socket.atom in self.query.loose:
            return socket.loosened
        unsure = self.query.admits is Admits.UNSURE
        return socket.fits | socket.unsure if unsure else socket.fits

    def _tree_shape(self) -> None:
        """One root; what is placed stands in one socket; required sockets are filled."""
        self.cp.add_exactly_one(self.roots.values())
        for number, it in enumerate(self.tree.candidates):
            ways = [self.how[number, how] for how in How]
            places = [join for (_, _, above), join in self.joins.items() if above == number]
            here = self.placed[number]
            self.cp.add(sum(ways) == here)
            self.cp.add(sum(places) + self.roots.get(number, 0) == here)
            for at, socket in enumerate(it.sockets):
                above = sum(self.joins[number, at, n] for n in self._members(socket))
                if self.tree.sockets[socket].required:
                    self.cp.add(above == here)
                else:
                    self.cp.add(above <= here)
        kinds = {it.kind for it in self.tree.candidates}
        for kind in kinds:
            flags = [flag for flag, it in self._standing() if it.kind == kind]
            self.cp.add_at_most_one(flags)
            if self.query.required >> kind & 1:
                self.cp.add_at_least_one(flags)

    def _ancestors(self) -> None:
        """``under[a, c]`` holds exactly when ``c`` stands on ``a`` or on what stands on it."""
        for (root, above), under in self.under.items():
            reasons = []
            for (below, _, other), join in self.joins.items():
                if other == above:
                    if below == root:
                        reasons.append(join)
                    else:
                        both = self.cp.new_bool_var("")
                        self.cp.add_bool_and(join, self.under[root, below]).only_enforce_if(both)
                        self.cp.add_bool_or(~join, ~self.under[root, below], both)
                        reasons.append(both)
            self.cp.add_max_equality(under, [*reasons, 0])

    def _supply(self) -> None:
        """Kept only what is in hand, bought only what is on sale, included only below a kit."""
        query = self.query
        for number in range(len(self.tree.candidates)):
            usable = bool(query.usable[number])
            if not (usable and number in query.owned):
                self.cp.add(self.how[number, How.KEPT] == 0)
            if not query.buyable[number]:
                self.cp.add(self.how[number, How.BOUGHT] == 0)
            kits = []
            for kit, it in enumerate(self.tree.candidates):
                if usable and number in it.brings:
                    brought = self.cp.new_bool_var("")
                    self.cp.add_implication(brought, self.how[kit, How.BOUGHT])
                    self.cp.add_implication(brought, self.under[kit, number])
                    kits.append(brought)
            self.cp.add_bool_or(~self.how[number, How.INCLUDED], *kits)

    def _demands(self) -> None:
        """What stands on a candidate bears its demands; all of it bears one opening."""
        opened = [self.cp.new_bool_var("") for _ in self.query.openings]
        self.cp.add_exactly_one(opened)
        for number, it in enumerate(self.tree.candidates):
            for flag, opening in zip(opened, self.query.openings, strict=True):
                if not self._bears(it, opening):
                    self.cp.add_implication(flag, ~self.placed[number])
            for below, demander in enumerate(self.tree.candidates):
                scaled = [
                    -(-value * up // down)
                    for value, (up, down) in zip(demander.demands, self.query.scales, strict=False)
                ]
                if not self._bears(it, scaled):
                    self.cp.add(self.under[below, number] == 0)

    def _bears(self, it: Candidate, demands: tuple[int, ...] | list[int]) -> bool:
        for given, wanted in zip(it.gives, demands, strict=False):
            if given == UNKNOWN:
                if wanted > 0 and self.query.admits is not Admits.UNSURE:
                    return False
            elif given < wanted:
                return False
        return True

    def _balance(self) -> None:
        """Mass by height above the pivot adds up to no more than nothing, at the worst load."""
        feet = {n: self.cp.new_int_var(-_FAR, _FAR, "") for n in self.placed}
        for root, flag in self.roots.items():
            self.cp.add(feet[root] == 0).only_enforce_if(flag)
        for (below, at, above), join in self.joins.items():
            rise = self.tree.candidates[below].rises[at]
            self.cp.add(feet[above] == feet[below] + rise).only_enforce_if(join)
        for root, pivot in self.query.pivots.items():
            if root in self.roots:
                self._about(pivot, self.roots[root], feet)

    def _about(
        self, pivot: int, root: cp_model.IntVar, feet: Mapping[int, cp_model.IntVar]
    ) -> None:
        shares = []
        for number, it in enumerate(self.tree.candidates):
            share = self.cp.new_int_var(-_FAR, _FAR, "")
            arm = feet[number] - pivot
            self.cp.add(share == 0).only_enforce_if(~self.placed[number])
            loads = () if self.query.dry else it.loads
            for mass, centre in [(load.mass, load.centre) for load in loads] or [(0, 0)]:
                own = it.mass * (arm + it.centre) + mass * (arm + centre)
                self.cp.add(share >= own).only_enforce_if(self.placed[number])
            shares.append(share)
        self.cp.add(sum(shares) <= 0).only_enforce_if(root)

    def _limits(self) -> None:
        for aim, most in self.query.most.items():
            self.cp.add(self.cost(aim) <= most)
