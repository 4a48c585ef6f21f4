"""A page that is watched: what it asks for, how much comes, what the browser complains of."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from tests.support.chromium import PATIENCE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page

__all__ = ["Watched", "watched_page"]

_EXPECTED = ("the server responded with a status of",)
"""What the browser logs of a refusal that a test asks for."""


@dataclass
class Watched:
    """A page and what was noticed.

    Attributes
    ----------
    page : Page
        The page.
    asked : list of str
        Every address the browser asked for.
    complaints : list of str
        Errors of scripts, of the console, and what the policy of the page forbids.
    """

    page: Page
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    @property
    def context(self) -> BrowserContext:
        """The browser's memory the page lives in."""
        return self.page.context

    def _heard(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"} and not any(
            one in message.text for one in _EXPECTED
        ):
            self.complaints.append(message.text)

    def watch(self) -> None:
        """Begin to watch."""
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("console", self._heard)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def settle(self, url: str) -> None:
        """Check that only the desk was asked and nothing was complained of."""
        elsewhere = [one for one in self.asked if not one.startswith((url, "data:", "blob:"))]
        assert elsewhere == [], "a page of the desk asks another machine"
        assert self.complaints == []


@contextmanager
def watched_page(browser: Browser, url: str, **settings: Any) -> Iterator[Watched]:
    """Open the first page in a fresh memory; at the end check what was noticed.

    Parameters
    ----------
    browser : Browser
        That runs.
    url : str
        Of the desk.
    **settings
        Of the context, such as ``java_script_enabled``.
    """
    context = browser.new_context(base_url=url, **settings)
    context.set_default_timeout(PATIENCE)
    found = Watched(context.new_page())
    found.watch()
    try:
        found.page.goto("/")
        yield found
        found.settle(url)
    finally:
        context.close()
