"""A small set of call tables, made by hand, whose beliefs can be worked out on paper."""

from __future__ import annotations

from wickwright.catalogue.call_records import (
    CallBook,
    Cause,
    Complaint,
    Cure,
    Remedy,
    Show,
    Sign,
    State,
    Way,
)

__all__ = ["small_calls"]

_SHOWS = (
    ("crusted", "dim", 0.85),
    ("crusted", "uneven", 0.85),
    ("stale", "dim", 0.5),
    ("stale", "smells", 0.85),
    ("short", "dim", 0.85),
    ("short", "carbon", 0.5),
    ("leaks", "wet", 0.85),
    ("leaks", "dim", 0.2),
    ("other", "dim", 0.5),
)
_CURES = (
    ("clean-wick", "crusted", 0.95),
    ("fresh-fuel", "stale", 0.95),
    ("tall-chimney", "short", 0.95),
    ("tighten", "leaks", 0.9),
)


def _sign(key: str, state: State, minutes: float, danger: str = "") -> Sign:
    return Sign(
        id=key,
        question=f"Is it {key}?",
        says=f"it is {key}",
        way=Way.LOOK,
        minutes=minutes,
        state=state,
        needs=(),
        yes_right=0.92,
        no_right=0.94,
        unsure=0.08,
        anyway=0.02,
        danger=danger,
        why=f"because {key} tells",
        source="practice",
    )


def _cause(key: str, weight: float, needs: tuple[str, ...] = (), computed: str = "") -> Cause:
    return Cause(key, f"it is {key}", weight, needs, (), computed, f"{key} does it", "practice")


def _remedy(key: str, minutes: float, state: State, wish: str = "") -> Remedy:
    return Remedy(key, f"Do {key}.", minutes, state, wish, 0.0, "", "practice")


def small_calls() -> CallBook:
    """Return five causes, five signs and four remedies of one complaint."""
    signs = (
        _sign("dim", State.ANY, 0.3),
        _sign("uneven", State.LIT, 0.5),
        _sign("smells", State.ANY, 0.3),
        _sign("carbon", State.COLD, 0.3),
        _sign("wet", State.ANY, 0.5, danger="wet-font"),
    )
    causes = (
        _cause("crusted", 0.12),
        _cause("stale", 0.10),
        _cause("short", 0.05, ("chimney",), "thin-air"),
        _cause("leaks", 0.03),
        _cause("other", 0.04),
    )
    remedies = (
        _remedy("clean-wick", 6.0, State.COLD),
        _remedy("fresh-fuel", 12.0, State.COLD),
        _remedy("tall-chimney", 4.0, State.COLD, "renew-chimney"),
        _remedy("tighten", 2.0, State.COLD),
    )
    return CallBook(
        signs={one.id: one for one in signs},
        complaints={"dim": Complaint("dim", "it is not bright", "dim", ("dark", "weak"))},
        causes={one.id: one for one in causes},
        shows=tuple(Show(cause, sign, chance, "practice") for cause, sign, chance in _SHOWS),
        remedies={one.id: one for one in remedies},
        cures=tuple(Cure(*one) for one in _CURES),
    )
