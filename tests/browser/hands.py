"""An adviser at a browser who has a keyboard and eyes, and no mouse."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from playwright.sync_api import expect

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

__all__ = ["Hands"]

_MOST_TABS = 120
_FOCUSED = """() => {
  const it = document.activeElement;
  if (!it || it === document.body) return "";
  const label = it.labels?.length ? it.labels[0].textContent : it.getAttribute("aria-label");
  return (label ?? it.textContent).replace(/\\s+/g, " ").trim();
}"""
_VERSION = "#said input[name=version]"
_QUESTION = "#ask-head"


@dataclass(frozen=True)
class Hands:
    """Types and presses; looks through :attr:`page`, and never clicks or fills there.

    Attributes
    ----------
    page : Page
        To be looked at.
    """

    page: Page

    def press(self, *keys: str) -> None:
        """Press keys one after another."""
        for key in keys:
            self.page.keyboard.press(key)

    def write(self, text: str) -> None:
        """Type a text where the focus is."""
        self.page.keyboard.type(text)

    def focused(self) -> str:
        """Return the label of what has the focus."""
        return str(self.page.evaluate(_FOCUSED))

    def tab_to(self, label: str, *, back: bool = False) -> None:
        """Press Tab until what has the focus is labelled so."""
        seen = []
        for _ in range(_MOST_TABS):
            self.press("Shift+Tab" if back else "Tab")
            found = self.focused()
            if re.match(label, found):
                return
            seen.append(found)
        raise AssertionError(label, seen)

    def arrive(self, heading: str) -> None:
        """Wait until a page of this heading stands there, and hears keys."""
        expect(self.page.locator("h1")).to_contain_text(heading)
        self.page.wait_for_load_state()

    # -- a call sheet ----------------------------------------------------------------------------

    def begin(self, words: str, caller: str = "") -> int:
        """Begin a call on the first page, which waits for the caller's words."""
        expect(self.page.get_by_label("What does the caller say?")).to_be_focused()
        self.write(words)
        if caller:
            self.tab_to("Caller")
            self.write(caller)
            self.press("Enter")
        else:
            self.press("Control+Enter")
        self.page.wait_for_url(re.compile(r"/calls/\d+"))
        self.arrive("Call ")
        return int(self.page.url.split("/calls/")[1].split("#")[0])

    def answer(self, *keys: str) -> None:
        """Press keys that answer the question; wait until the sheet is worked out anew."""
        before = self.version
        self.press(*keys)
        expect(self.page.locator(_VERSION)).not_to_have_value(before)

    def choose(self, says: str) -> None:
        """Press the key that stands before an answer."""
        choice = self.choices.filter(has_text=says).first
        self.answer(choice.locator("kbd").inner_text())

    def field(self, label: str, text: str, *, back: bool = False) -> None:
        """Go to a field of the sheet, type into it, and wait until it is kept."""
        before = self.version
        self.tab_to(label, back=back)
        self.press("Control+a")
        self.write(text)
        expect(self.page.locator(_VERSION)).not_to_have_value(before)
        expect(self.page.locator("#kept")).to_have_text("Kept.")

    @property
    def version(self) -> str:
        """Of the call, as the page knows it."""
        return self.page.locator(_VERSION).input_value()

    @property
    def question(self) -> str:
        """What is asked."""
        return self.page.locator(_QUESTION).inner_text()

    @property
    def choices(self) -> Locator:
        """Answers that can be chosen."""
        return self.page.locator("#ask .choices button")
