"""What is looked at on every page: rules of accessibility, labels, room, weight, focus."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import axe_playwright_python

if TYPE_CHECKING:
    from playwright.sync_api import Page

__all__ = ["TabStop", "broken_rules", "tab_stops", "too_wide", "unlabelled", "weight"]

_TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
_AXE_CALL = "tags => axe.run(document, {runOnly: {type: 'tag', values: tags}})"
_UNLABELLED = """() => [...document.querySelectorAll(
  "input:not([type=hidden]), select, textarea, button, [role=button]")].filter(it => {
    const labels = [...(it.labels ?? [])].map(one => one.textContent.trim()).join("");
    const own = it.matches("button, [role=button]") ? it.textContent.trim() : "";
    return !labels && !own && !it.getAttribute("aria-label");
  }).map(it => it.outerHTML.slice(0, 120))"""
_TOO_WIDE = """() => {
  const wide = document.documentElement.clientWidth;
  const over = document.documentElement.scrollWidth > wide;
  return !over ? [] : [...document.querySelectorAll("main *, header *, footer *")].filter(it =>
    it.getBoundingClientRect().right > wide + 1 && !it.closest(".wide, .unseen")
  ).map(it => it.outerHTML.slice(0, 120)).slice(-3).concat([
    `${document.documentElement.scrollWidth} > ${wide}`]);
}"""
_STOP = """() => {
  const it = document.activeElement;
  if (!it || it === document.body) return null;
  const style = getComputedStyle(it), box = it.getBoundingClientRect();
  const ring = style.outlineStyle !== "none" ? parseFloat(style.outlineWidth) : 0;
  const at = document.elementFromPoint(
    Math.min(Math.max(box.x + box.width / 2, 1), innerWidth - 1),
    Math.min(Math.max(box.y + Math.min(box.height / 2, 20), 1), innerHeight - 1));
  const shown = box.width > 0 && box.bottom > 0 && box.top < innerHeight && box.right > 0;
  return {it: it.outerHTML.slice(0, 100), ring, shown,
    free: !at || it.contains(at) || at.contains(it) || Boolean(at.closest("label"))};
}"""
_MOST_STOPS = 40


@cache
def _axe() -> str:
    folder = Path(axe_playwright_python.__file__).parent
    return next(folder.rglob("axe.min.js")).read_text(encoding="utf-8")


def broken_rules(page: Page) -> list[str]:
    """Return every rule of WCAG 2.2 A and AA, and of good practice, that a page breaks.

    The rules are axe-core's. They are run by the browser's own hand, for the page's policy
    forbids scripts of others.
    """
    page.evaluate(_axe())
    found = page.evaluate(_AXE_CALL, [*_TAGS])
    assert found["passes"], "no rule was looked at"
    return [_rule(one) for one in found["violations"]]


def _rule(found: Any) -> str:
    where = "; ".join(node["html"][:160] for node in found["nodes"][:3])
    why = found["nodes"][0]["failureSummary"].replace("\n", " ")[:300]
    return f"{found['id']}: {found['help']} ({len(found['nodes'])}): {where} -- {why}"


def unlabelled(page: Page) -> list[str]:
    """Return controls that have neither a label nor words of their own; a placeholder is none."""
    return list(page.evaluate(_UNLABELLED))


def too_wide(page: Page, width: int) -> list[str]:
    """Return what makes a page scroll sideways in a window so many CSS pixels wide."""
    page.set_viewport_size({"width": width, "height": 700})
    return list(page.evaluate(_TOO_WIDE))


@dataclass(frozen=True)
class TabStop:
    """Something that the Tab key comes to.

    Attributes
    ----------
    it : str
        The beginning of its markup.
    ring : float
        Width of the outline around it [px].
    shown : bool
        Whether it is inside the window.
    free : bool
        Whether nothing lies over it.
    """

    it: str
    ring: float
    shown: bool
    free: bool


def tab_stops(page: Page) -> list[TabStop]:
    """Press Tab through a page, at most forty times."""
    stops: list[TabStop] = []
    for _ in range(_MOST_STOPS):
        page.keyboard.press("Tab")
        found = page.evaluate(_STOP)
        if found is None:
            break
        stops.append(TabStop(**found))
    return stops


def weight(page: Page) -> int:
    """Load a page with nothing kept from before; return the bytes that come [-]."""
    wire = page.context.new_cdp_session(page)
    wire.send("Network.enable")
    wire.send("Network.setCacheDisabled", {"cacheDisabled": True})
    sizes: list[int] = []
    wire.on("Network.loadingFinished", lambda event: sizes.append(int(event["encodedDataLength"])))
    page.reload()
    wire.detach()
    return sum(sizes)
