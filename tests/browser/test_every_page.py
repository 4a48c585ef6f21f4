"""Every page in every state: for everybody, in every width, light, and from this desk alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest
from fastapi.routing import APIRoute
from starlette.routing import Match, Mount, Route
from tests.browser.looking import broken_rules, tab_stops, too_wide, unlabelled, weight
from tests.browser.tour import STATES, State, Tour, log_in
from tests.browser.watching import watched_page

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fastapi import FastAPI
    from playwright.sync_api import Browser, Page
    from tests.support.open_desks import OpenDesk

PICTURES = Path(__file__).parents[2] / "build" / "screenshots"
FILES = {
    "/calls/{number}/photos/{photo}": "a photograph",
    "/book/lamps/{lamp}/charts/{chart}.svg": "a chart, shown on the page of its lamp",
    "/learning/cases.jsonl": "closed calls",
    "/calls/{number}/order.csv": "an order",
    "/calls/{number}/order.json": "an order",
    "/calls/{number}/fit-sheet.pdf": "a fit sheet",
}
"""What is asked for and is no page."""
HEAVIEST = 150_000
_PHONE, _LARGE_LETTERS, _TABLET = 320, 640, 768
_TABBED = ("first-page", "sheet-wanted", "sheet-dangers", "sheet-ways", "trail", "book-found")


@pytest.fixture(scope="module")
def cookies(chromium: Browser, staffed: OpenDesk) -> list[dict[str, object]]:
    """Give what a browser keeps of a lead who is logged in."""
    with watched_page(chromium, staffed.url) as watched:
        log_in(watched.page)
        return [dict(one) for one in watched.context.cookies()]


@pytest.fixture
def tour(chromium: Browser, staffed: OpenDesk, cookies: list[dict[str, object]]) -> Iterator[Tour]:
    """Give a lead at the first page."""
    with watched_page(chromium, staffed.url, storage_state={"cookies": cookies}) as watched:
        yield Tour(staffed, watched.page)


def routes_of(app: FastAPI) -> list[APIRoute]:
    """Return every route of the desk that is not the interface for programs."""
    routers = [one.original_router for one in app.routes if hasattr(one, "original_router")]
    rest = {one.path for one in app.routes if isinstance(one, Mount | Route)}
    assert rest == {"/api/v1", "/static"}, "something is served that no router of pages holds"
    return [one for router in routers for one in router.routes if isinstance(one, APIRoute)]


def route_of(app: FastAPI, url: str) -> str:
    """Return the route that answers an address; blank where none does."""
    scope = {"type": "http", "method": "GET", "path": urlsplit(url).path, "root_path": ""}
    full = (one.path for one in routes_of(app) if one.matches(scope)[0] is Match.FULL)
    return next(full, "")


def pictured(page: Page, name: str) -> None:
    """Keep how a page looks, on a screen, in grey print, and in colours of the user's own."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    page.screenshot(path=PICTURES / f"{name}.png", full_page=True)
    wire = page.context.new_cdp_session(page)
    wire.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})
    page.emulate_media(media="print")
    page.screenshot(path=PICTURES / f"{name}-print.png", full_page=True)
    wire.send("Emulation.setEmulatedVisionDeficiency", {"type": "none"})
    wire.detach()
    page.emulate_media(media="screen", forced_colors="active")
    page.screenshot(path=PICTURES / f"{name}-own-colours.png", full_page=True)
    page.emulate_media(media="screen", forced_colors="none")


@pytest.mark.parametrize("state", STATES, ids=lambda state: state.name)
def test_a_page(tour: Tour, state: State) -> None:
    """If this failed, a page would shut somebody out, or not fit a narrow or enlarged window."""
    page = tour.page
    state.show(tour)
    assert route_of(tour.desk.app, page.url) == state.route
    pictured(page, state.name)
    assert broken_rules(page) == []
    assert unlabelled(page) == []
    for width in (_TABLET, _LARGE_LETTERS, _PHONE):
        assert too_wide(page, width) == [], width
    page.screenshot(path=PICTURES / f"{state.name}-narrow.png", full_page=True)
    assert weight(page) < HEAVIEST


@pytest.mark.parametrize("name", _TABBED)
def test_every_stop_of_the_tab_key_is_seen(tour: Tour, name: str) -> None:
    """If this failed, somebody at the keyboard would not know where they are."""
    next(one for one in STATES if one.name == name).show(tour)
    stops = tab_stops(tour.page)
    assert len(stops) > 5
    assert [one for one in stops if one.ring < 2] == [], "no ring is drawn around it"
    assert [one for one in stops if not one.shown] == [], "it is out of sight"
    assert [one for one in stops if not one.free] == [], "something lies over it"


def test_no_page_is_left_out(desk: OpenDesk) -> None:
    """If this failed, a new page could shut somebody out and no test would see it."""
    pages = {one.path for one in routes_of(desk.app) if "GET" in (one.methods or ())}
    assert pages - {one.route for one in STATES} == set(FILES)
