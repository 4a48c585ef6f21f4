"""More light in the demo book, against a judge that builds every lamp and lights it alone.

The judge knows nothing of sorts, labels or bounds: it puts together every set of parts of which
each fits what carries it, holds it to the audit, computes its flame by itself, and adds up
what would have to be bought.
"""

from __future__ import annotations

import math
from functools import cache
from itertools import product
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo

from wickwright.answers import Impossible, Routes, which_parts
from wickwright.burn.checks import air_at
from wickwright.burn.flames import solve
from wickwright.burn.lamp import burning_lamp
from wickwright.catalogue.records import Service, Status
from wickwright.fit.assemble import assemble
from wickwright.fit.audit import audit
from wickwright.fit.flags import buyable
from wickwright.fit.joints.verdict import ACCEPTED
from wickwright.fit.place import Place
from wickwright.terms.finding import Severity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickwright.catalogue.assembly import Assembly
    from wickwright.catalogue.records import Part

Cost = tuple[int, int, int, int]
PARTS = demo().book.parts
FLAME = ("burner", "chimney", "mantle")


def _of(kind: str) -> list[Part]:
    return [it for it in PARTS.values() if it.kind == kind and it.service is not Service.ELECTRIC]


@cache
def _goes(below: str, above: str) -> bool:
    """Whether a part may stand on another."""
    carrier, stander = PARTS[below], PARTS[above]
    for on in carrier.carries:
        best = demo().joiner.best(carrier, on, stander) if stander.kind in on.takes else None
        if best and best[1].fit in ACCEPTED:
            return True
    return False


def _on(below: Part, kind: str) -> list[Part | None]:
    """What of a kind may stand on a part; nothing where it carries none of the kind."""
    carried = any(kind in on.takes for on in below.carries)
    return [one for one in _of(kind) if _goes(below.id, one.id)] if carried else [None]


def _heads(burner: Part) -> Iterator[list[Part | None]]:
    """All that may stand on a burner: wick, spreader, gallery, chimney and mantle."""
    galleries = _on(burner, "gallery")
    for wick, spreader, gallery in product(_on(burner, "wick"), _on(burner, "spreader"), galleries):
        seat = gallery or burner
        holder = burner if any("mantle" in on.takes for on in burner.carries) else seat
        for chimney, mantle in product(_on(seat, "chimney"), _on(holder, "mantle")):
            yield [burner, wick, spreader, gallery, chimney, mantle]


def _lamps(lamp: str, at: float) -> Iterator[tuple[list[Part], Assembly]]:
    """Every sound lamp on the base and font of a model."""
    sold = [PARTS[key] for key in demo().book.lamps[lamp].as_sold]
    body = [part for part in sold if part.kind in ("base", "font")]
    font = body[1]
    reducers = [None, *(one for one in _of("reducer") if _goes(font.id, one.id))]
    for reducer in reducers:
        below = reducer or font
        for burner in (one for one in _of("burner") if _goes(below.id, one.id)):
            for head in _heads(burner):
                parts = [*body, *(one for one in (reducer, *head) if one)]
                built = assemble(parts, demo().joiner)
                found = audit(built, demo().book.lamps[lamp], Place(at), demo().joiner)
                if not built.loose and all(one.severity < Severity.UNKNOWN for one in found):
                    yield parts, built


@cache
def _flame(trio: tuple[str, ...], at: float) -> int:
    """Light points of burner, chimney and mantle, lit by themselves."""
    light = float(solve(burning_lamp(_BUILT[trio], air_at(at)).lamps).light)
    return round(100.0 * math.log(light))


_BUILT: dict[tuple[str, ...], Assembly] = {}
"""Any lamp that carries a trio."""


def _light(parts: list[Part], built: Assembly, at: float) -> int:
    trio = tuple(part.id for part in parts if part.kind in FLAME)
    _BUILT.setdefault(trio, built)
    return _flame(trio, at) + sum(part.light for part in parts if part.kind not in FLAME)


def _paid(owned: set[str], parts: list[Part], built: Assembly) -> Iterator[list[Part]]:
    """What may be bought for a lamp: a kit in hand may be bought anew for what comes with it."""
    kits = [part.id for part in parts if part.includes]
    for anew in product((False, True), repeat=len(kits)):
        again = {key for key, new in zip(kits, anew, strict=True) if new}
        bought = {part.id for part in parts if part.id not in owned or part.id in again}
        brought = {
            it.part.id
            for kit in built.walk()
            if kit.part.id in bought
            for it in kit.walk()
            if it.part.id in kit.part.includes
        }
        yield [part for part in parts if part.id in bought - brought]


def _judged(lamp: str, at: float, more: int) -> set[Cost]:
    sold = [PARTS[key] for key in demo().book.lamps[lamp].as_sold]
    before = _light(sold, demo().sold(lamp), at)
    owned = {part.id for part in sold}
    costs: set[Cost] = set()
    for parts, built in _lamps(lamp, at):
        gained = _light(parts, built, at) - before
        if gained < more:
            continue
        for pay in _paid(owned, parts, built):
            if all(buyable(part, 1) and part.kind not in ("base", "font") for part in pay):
                dying = sum(part.status is not Status.MADE for part in parts)
                costs.add((sum(part.price or 0 for part in pay), len(pay), dying, -gained))
    return {
        one
        for one in costs
        if not any(
            other != one and all(a <= b for a, b in zip(other, one, strict=True)) for other in costs
        )
    }


@pytest.mark.parametrize(
    ("lamp", "wish", "more", "at"),
    [
        ("WH-302", "brighter", 10, 1700.0),
        ("WH-302", "much-brighter", 18, 0.0),
        ("DU-401", "brighter", 10, 0.0),
        ("DU-406", "much-brighter", 18, 2400.0),
        ("SO-501", "brighter", 10, 1700.0),
        ("TU-601", "brighter", 10, 0.0),
        ("TY-101", "brighter", 10, 1200.0),
        ("SA-206", "much-brighter", 18, 0.0),
    ],
)
def test_no_unbeaten_brighter_lamp_is_lost(lamp: str, wish: str, more: int, at: float) -> None:
    """If this failed, a caller who asks for light would not be told of a lamp nothing beats."""
    answer = which_parts(demo(), lamp, wish, elevation=at)
    judged = _judged(lamp, at, more)
    if isinstance(answer, Impossible):
        assert judged == set()
        return
    assert isinstance(answer, Routes)
    found = [(one.price, len(one.buy), len(one.dying), -one.light) for one in answer.routes]
    assert sorted(found) == sorted(judged)
