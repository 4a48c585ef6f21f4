"""The three calls of the README, taken key by key as they stand there."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect
from tests.browser.hands import Hands
from tests.browser.watching import watched_page

if TYPE_CHECKING:
    from playwright.sync_api import Browser
    from tests.support.open_desks import OpenDesk

README = Path(__file__).parents[2] / "README.md"
STEP = re.compile(r"    (write|press|see) {2,4}(.+)")
TYPED = re.compile(r"(\S+)(?: {2,}.*)?")


def calls() -> dict[str, list[tuple[str, str]]]:
    """Return the steps of each call, by its title."""
    text = README.read_text(encoding="utf-8").split("## Three calls to take")[1]
    block = text.split("```text\n")[1].split("```")[0]
    found: dict[str, list[tuple[str, str]]] = {}
    title = ""
    for line in filter(str.strip, block.splitlines()):
        step = STEP.fullmatch(line)
        if step is None:
            title = line
            found[title] = []
        else:
            found[title].append((step[1], step[2].strip()))
    return found


def taken(hands: Hands, steps: list[tuple[str, str]]) -> None:
    """Do what the README says."""
    for verb, what in steps:
        if verb == "see":
            expect(hands.page.locator("main")).to_contain_text(what, timeout=20_000)
        elif verb == "write":
            hands.write(what)
        else:
            key = TYPED.fullmatch(what)
            assert key is not None, what
            answers = hands.page.locator("#ask").count() > 0 and key[1] not in {"l", "o"}
            (hands.answer if answers else hands.press)(key[1])
            if key[1] == "Control+Enter":
                hands.arrive("Call ")


@pytest.mark.parametrize("title", calls())
def test_a_call_of_the_readme_goes_as_it_says(
    title: str, chromium: Browser, desk: OpenDesk
) -> None:
    """If this failed, a newcomer's first call would not go as the README promises."""
    with watched_page(chromium, desk.url) as watched:
        taken(Hands(watched.page), calls()[title])
