"""The questions the desk is asked; the only place where the rooms below meet.

A question about parts, lamps, causes or orders has a module of its own here; what belongs to one
matter has a room: ``said``, ``sheet``, ``post``, ``places``, ``flames``, ``book``, ``pictures``,
``words`` and ``plain``.

Everything here is plain functions of a compiled book, typed and documented, for a notebook,
a web shop or the edges of this program.
"""

from typing import TYPE_CHECKING

from wickwright.answers.do_they_fit import Pair, do_they_fit
from wickwright.answers.flames.predict_burn import (
    BurnAnswer,
    Burns,
    FlameNotKnown,
    OnABulb,
    how_it_burns,
    predict_burn,
)
from wickwright.answers.flames.route_flames import (
    RouteFlame,
    RouteFlames,
    all_findings,
    route_flames,
)
from wickwright.answers.flames.standing_air import RoomAir, standing_air, standing_place
from wickwright.answers.rule_book import rule_book, rule_of
from wickwright.answers.what_replaced import Replacement, what_replaced
from wickwright.answers.which_parts import UnknownNameError, which_parts, which_serve_all
from wickwright.answers.words.wording import sentence
from wickwright.fit.compiled import Compiled, compile_book
from wickwright.fit.routes import Gave, Impossible, NotKnown, Route, Routes
from wickwright.fit.settings import Settings

if TYPE_CHECKING:
    from wickwright.answers.check_order import CheckedOrder, check_orders, short_for_all

__all__ = [
    "BurnAnswer",
    "Burns",
    "CheckedOrder",
    "Compiled",
    "FlameNotKnown",
    "Gave",
    "Impossible",
    "NotKnown",
    "OnABulb",
    "Pair",
    "Replacement",
    "RoomAir",
    "Route",
    "RouteFlame",
    "RouteFlames",
    "Routes",
    "Settings",
    "UnknownNameError",
    "all_findings",
    "check_orders",
    "compile_book",
    "do_they_fit",
    "how_it_burns",
    "predict_burn",
    "route_flames",
    "rule_book",
    "rule_of",
    "sentence",
    "short_for_all",
    "standing_air",
    "standing_place",
    "what_replaced",
    "which_parts",
    "which_serve_all",
]

_OF_ORDERS = frozenset({"CheckedOrder", "check_orders", "short_for_all"})


def __getattr__(name: str) -> object:
    """Load the checks of orders when they are asked for: no other answer needs them."""
    if name not in _OF_ORDERS:
        msg = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(msg)
    from wickwright.answers import check_order  # noqa: PLC0415 - see above

    found: object = getattr(check_order, name)
    return found
