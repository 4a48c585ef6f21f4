"""Every rule the program holds a lamp or an order to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.answers.flames.flame_rules import RULES as ROUTE_FLAME_RULES
from wickwright.burn.rules import RULES as FLAME_RULES
from wickwright.fit.lamp_rules import RULES as LAMP_RULES
from wickwright.fit.rules import RULES as JOINT_RULES
from wickwright.orders.rules import RULES as ORDER_RULES
from wickwright.room.rules import RULES as ROOM_RULES

if TYPE_CHECKING:
    from wickwright.terms.finding import Rule

__all__ = ["rule_book", "rule_of"]

_RULES: dict[str, Rule] = {
    rule.key: rule
    for rules in (JOINT_RULES, LAMP_RULES, FLAME_RULES, ROUTE_FLAME_RULES, ROOM_RULES, ORDER_RULES)
    for rule in rules
}


def rule_book() -> tuple[Rule, ...]:
    """Return every rule, joints first, then the whole lamp, its flame, the room, then orders.

    Returns
    -------
    tuple of Rule
        Each with its source and what it would take to break it.
    """
    return tuple(_RULES.values())


def rule_of(key: str) -> Rule:
    """Return one rule.

    Parameters
    ----------
    key : str
        As a finding names it.

    Returns
    -------
    Rule
        The rule.

    Raises
    ------
    KeyError
        When there is no such rule.
    """
    return _RULES[key]
