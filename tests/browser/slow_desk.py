"""A desk that takes its time on purpose, so that an adviser is quicker than it is."""

from __future__ import annotations

import time
from contextlib import contextmanager
from functools import wraps
from inspect import unwrap
from typing import TYPE_CHECKING, Any

from tests.browser.hands import Hands
from tests.browser.watching import watched_page

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    import pytest
    from playwright.sync_api import Browser
    from tests.support.open_desks import OpenDesk

    from wickwright.answers.sheet.call_record import Call, Said

__all__ = ["saved_at_once", "slow_hands"]

SLOW = 0.7
"""How long such a desk takes to keep a step [s]."""


@contextmanager
def slow_hands(
    chromium: Browser, desk: OpenDesk, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Hands]:
    """Give an adviser at a desk whose every step takes long to be kept."""
    calls = desk.state.store.calls
    monkeypatch.setattr(type(calls), "save", _slowly(type(calls).save))
    with watched_page(chromium, desk.url) as watched:
        yield Hands(watched.page)


def _slowly(save: Callable[..., Any]) -> Callable[..., Any]:
    @wraps(save)
    def slowly(*arguments: Any) -> Any:
        time.sleep(SLOW)
        return save(*arguments)

    return slowly


def saved_at_once(desk: OpenDesk, call: Call, said: Said, who: str) -> None:
    """Write to a call as another desk does that is not slow."""
    calls = desk.state.store.calls
    save = unwrap(type(calls).save)
    save(calls, call.number, call.version, said, who, desk.state.clock())
