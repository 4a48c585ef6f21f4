"""Chromium, found on this machine and started once; the tests fail where there is none."""

from __future__ import annotations

import os
import shutil
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from playwright.sync_api import expect, sync_playwright

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from playwright.sync_api import Browser

__all__ = ["PATIENCE", "NoChromiumError", "found_chromium", "running_chromium"]

_NAMES = ("chromium", "chromium-browser", "google-chrome")
_USUAL = Path("/usr/bin/chromium")
_ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE = 20_000
"""How long something may take to appear before a test gives up [ms]; machines can be busy."""


class NoChromiumError(RuntimeError):
    """There is no browser to drive; the tests fail then, and are not skipped."""


def found_chromium(environment: Mapping[str, str]) -> str:
    """Return the program, or say how to come by one.

    Parameters
    ----------
    environment : mapping of str to str
        Where CHROMIUM may name it.

    Raises
    ------
    NoChromiumError
        When there is none.
    """
    named = environment.get("CHROMIUM", "")
    if named and not shutil.which(named):
        msg = f"CHROMIUM names '{named}', which is no program: name Chromium's, or unset it"
        raise NoChromiumError(msg)
    path = environment.get("PATH", "")
    usual = (shutil.which(name, path=path) for name in _NAMES)
    found = named or next(filter(None, usual), "") or (str(_USUAL) if _USUAL.exists() else "")
    if not found:
        msg = (
            "no Chromium is found: install it ('apt-get install chromium', or from chromium.org), "
            "or name its program in CHROMIUM"
        )
        raise NoChromiumError(msg)
    return found


@contextmanager
def running_chromium() -> Iterator[Browser]:
    """Give a browser without a window."""
    program = found_chromium(os.environ)
    expect.set_options(timeout=PATIENCE)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=[*_ARGUMENTS])
        try:
            yield browser
        finally:
            browser.close()
