"""What holds for every page: its record, its marks of structure, who may open it."""

import re
from dataclasses import fields, is_dataclass
from html.parser import HTMLParser
from importlib import import_module
from pathlib import Path

import pytest
from fastapi.routing import APIRoute
from jinja2 import meta, nodes
from tests.support.desks import Browser, new_desk

from wickwright import desk as package
from wickwright.desk.app import PAGES as PAGE_ROUTERS
from wickwright.desk.frame import Frame, environment

FOLDER = Path(next(iter(package.__path__)))
TEMPLATES = sorted(path.name for path in (FOLDER / "templates").glob("*.html"))
WHOLE = [name for name in TEMPLATES if not name.startswith("_")]


def _records() -> dict[str, type]:
    """Return the records of pages by name, as the modules of the desk define them."""
    modules = [import_module(f"wickwright.desk.{path.stem}") for path in FOLDER.glob("*.py")]
    return {
        name: value
        for module in modules
        for name, value in vars(module).items()
        if isinstance(value, type) and is_dataclass(value) and name.endswith("Page")
    }


def _record_name(template: str) -> str:
    words = template.removesuffix(".html").split("_")
    return "".join(word.capitalize() for word in words) + "Page"


def _tree(template: str) -> nodes.Template:
    text = (FOLDER / "templates" / template).read_text(encoding="utf-8")
    return environment().parse(text)


def _included(tree: nodes.Template) -> list[nodes.Template]:
    names = [one.template for one in tree.find_all(nodes.Include)]
    return [_tree(name.value) for name in names if isinstance(name, nodes.Const)]


def _used(tree: nodes.Template, record: str) -> set[str]:
    own = {
        found.attr
        for found in tree.find_all(nodes.Getattr)
        if isinstance(found.node, nodes.Name) and found.node.name == record
    }
    return own.union(*(_used(one, record) for one in _included(tree)))


@pytest.mark.parametrize("template", TEMPLATES)
def test_a_template_knows_nothing_but_its_page_and_frame(template: str) -> None:
    """If this failed, a page could show what its record does not answer for."""
    tree = _tree(template)
    own = {name for one in tree.find_all(nodes.FromImport) for name in one.names}
    own |= {one.name for one in tree.find_all(nodes.Macro)}
    assert meta.find_undeclared_variables(tree) - own <= {"page", "frame", "static"}
    assert _used(tree, "frame") <= {one.name for one in fields(Frame)}


@pytest.mark.parametrize("template", WHOLE)
def test_a_template_uses_only_what_its_record_has(template: str) -> None:
    """If this failed, a page would break on a field that its record has not."""
    record = _records()[_record_name(template)]
    own = {one.name for one in fields(record)}
    assert _used(_tree(template), "page") <= own


def test_every_record_of_a_page_has_its_template() -> None:
    """If this failed, a record was left behind by a page that is gone."""
    assert {*_records()} == {_record_name(template) for template in WHOLE}


# -- who may open what ---------------------------------------------------------------------------

OPEN, IN, LOG_IN, NO = "open to all", "shown", "sent to log in", "refused"
_ALL = {"nobody": LOG_IN, "Ingrid": IN, "Tomas": IN, "Odile": IN, "Ravi": IN}
_CALLS = {**_ALL, "Odile": NO, "Ravi": NO}
_LEADS = {**_CALLS, "Tomas": NO}
_ANYBODY = dict.fromkeys(_ALL, IN)

EXPECTED: dict[tuple[str, str], dict[str, str]] = {
    ("GET", "/"): _ALL,
    ("GET", "/login"): _ANYBODY,
    ("POST", "/login"): _ANYBODY,
    ("POST", "/logout"): _ALL,
    ("GET", "/account"): _ALL,
    ("POST", "/account"): _ALL,
    ("GET", "/keys"): _ALL,
    ("GET", "/find"): _ALL,
    ("GET", "/calls"): _CALLS,
    ("POST", "/calls"): _CALLS,
    ("GET", "/calls/{number}"): _CALLS,
    ("POST", "/calls/{number}/say"): _CALLS,
    ("POST", "/calls/{number}/caller"): _CALLS,
    ("POST", "/calls/{number}/back"): _CALLS,
    ("POST", "/calls/{number}/also"): _CALLS,
    ("POST", "/calls/{number}/book"): _CALLS,
    ("GET", "/calls/{number}/out"): _CALLS,
    ("GET", "/calls/{number}/order.csv"): _CALLS,
    ("GET", "/calls/{number}/order.json"): _CALLS,
    ("GET", "/calls/{number}/fit-sheet.pdf"): _CALLS,
    ("POST", "/calls/{number}/letter"): _CALLS,
    ("POST", "/calls/{number}/overrule"): _CALLS,
    ("POST", "/calls/{number}/given"): _CALLS,
    ("GET", "/calls/{number}/given/{given}"): _CALLS,
    ("GET", "/calls/{number}/trail"): _CALLS,
    ("POST", "/calls/{number}/hand-over"): _CALLS,
    ("POST", "/calls/{number}/close"): _CALLS,
    ("POST", "/calls/{number}/reopen"): _CALLS,
    ("GET", "/calls/{number}/erase"): _LEADS,
    ("POST", "/calls/{number}/erase"): _LEADS,
    ("POST", "/calls/{number}/photos"): _CALLS,
    ("GET", "/calls/{number}/photos/{photo}"): _CALLS,
    ("GET", "/learning"): _LEADS,
    ("POST", "/learning"): _LEADS,
    ("GET", "/learning/cases.jsonl"): _LEADS,
    ("GET", "/book"): _ALL,
    ("GET", "/book/parts/{part}"): _ALL,
    ("GET", "/book/lamps/{lamp}"): _ALL,
    ("GET", "/book/lamps/{lamp}/charts/{chart}.svg"): _ALL,
    ("GET", "/book/revisions"): _ALL,
    ("GET", "/book/revisions/{revision}"): _ALL,
    ("POST", "/book/revisions"): _LEADS,
    ("POST", "/book/revisions/{revision}/in-force"): _LEADS,
    ("GET", "/people"): _LEADS,
    ("POST", "/people"): _LEADS,
    ("POST", "/people/change"): _LEADS,
    ("POST", "/people/let-in"): _LEADS,
    ("POST", "/people/token/end"): _LEADS,
    ("POST", "/people/token"): _LEADS,
    ("GET", "/ledger"): _LEADS,
    ("GET", "/api"): _ALL,
}
"""What each person meets at each address; ``shown`` is any answer of the page itself."""


def _routes() -> set[tuple[str, str]]:
    return {
        (method, route.path)
        for router in PAGE_ROUTERS
        for route in router.routes
        if isinstance(route, APIRoute)
        for method in route.methods or ()
    }


def test_every_route_says_who_may_open_it() -> None:
    """If this failed, a page was added and nobody said who may see it."""
    assert _routes() == {*EXPECTED}


def _path(route: str) -> str:
    filled = route.replace("{number}", "1").replace("{photo}", "1").replace("{given}", "1")
    filled = filled.replace("{part}", "CH-3371").replace("{lamp}", "WH-302")
    return filled.replace("{chart}", "height").replace("{revision}", "0123456789abcdef")


def _meets(browser: Browser, method: str, path: str, *, key: bool) -> str:
    answer = browser.get(path) if method == "GET" else browser.post(path, key=key)
    if answer.status_code == 303 and answer.headers["location"].startswith("/login?next"):
        return LOG_IN
    if answer.status_code == 303 and answer.headers["location"] == "/login":
        return LOG_IN
    refused = answer.status_code == 403 and "This is not yours to do" in answer.text
    return NO if refused else IN


@pytest.mark.parametrize("who", [*_ALL])
def test_each_role_meets_what_is_meant_for_it(who: str) -> None:
    """If this failed, a page would be shown to the wrong person, or kept from the right one."""
    desk = new_desk()
    desk.logged_in("Tomas").post("/calls", {"words": "a broken glass"})
    met = {}
    for method, route in EXPECTED:
        browser = desk.browser() if who == "nobody" else desk.logged_in(who)
        met[method, route] = _meets(browser, method, _path(route), key=who != "nobody")
    assert met == {route: roles[who] for route, roles in EXPECTED.items()}


def test_a_page_of_another_role_is_noted() -> None:
    """If this failed, nobody would learn that an adviser tries the pages of a lead."""
    desk = new_desk()
    desk.logged_in("Odile").get("/calls")
    line = desk.state.store.ledger.newest(1)[0]
    assert (line.who, line.what, line.where) == (
        "Odile",
        "a page of another role, by inspector",
        "/calls",
    )


# -- structure -----------------------------------------------------------------------------------


class _Structure(HTMLParser):
    """Gathers what a screen reader goes by."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.ids: list[str] = []
        self.labelled: set[str] = set()
        self.controls: list[dict[str, str | None]] = []
        self.inside_label = 0
        self.styled: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.tags.append(tag)
        self.ids += [value for name, value in attrs if name == "id" and value]
        self.styled += [tag for name, _ in attrs if name == "style" or name.startswith("on")]
        if tag == "label":
            self.inside_label += 1
            self.labelled.add(given.get("for") or "")
        if tag in {"input", "select", "textarea"} and given.get("type") != "hidden":
            self.controls.append({**given, "wrapped": "yes" if self.inside_label else None})

    def handle_endtag(self, tag: str) -> None:
        if tag == "label":
            self.inside_label -= 1


PAGES = (
    *(
        "/",
        "/calls",
        "/calls/1",
        "/calls/1/trail",
        "/calls/1/erase",
        "/find?q=glass",
        "/find?q=zzz",
    ),
    *("/book", "/book?q=tall chimney", "/book?kind=wick", "/book/parts/CH-2296"),
    *("/book/lamps/WH-302", "/book/lamps/BX-701", "/book/revisions"),
    *("/people", "/account", "/ledger", "/keys", "/nowhere"),
)


@pytest.mark.parametrize("path", [*PAGES, "/login"])
def test_a_page_has_the_structure_that_keys_and_screen_readers_need(path: str) -> None:
    """If this failed, somebody without a mouse or without sight could not use a page."""
    desk = new_desk()
    desk.logged_in("Tomas").post("/calls", {"words": "a broken glass"})
    browser = desk.browser() if path == "/login" else desk.logged_in("Ingrid")
    page = browser.get(path)
    seen = _Structure()
    seen.feed(page.text)
    assert seen.tags.count("h1") == 1
    assert seen.tags.count("main") == 1
    assert '<a class="skip" href="#main">' in page.text
    assert len(seen.ids) == len({*seen.ids})
    assert seen.styled == []
    bare = [c for c in seen.controls if c.get("id") not in seen.labelled and not c["wrapped"]]
    assert bare == []
    assert re.search(r"<title>[^<]+ · Wickwright</title>", page.text)


@pytest.mark.parametrize(
    ("path", "marked"),
    [
        ("/book", '"page">Fit book'),
        ("/book/parts/CH-3371", '"true">Fit book'),
        ("/", '"page">Calls'),
    ],
)
def test_the_way_through_the_desk_shows_where_one_is(path: str, marked: str) -> None:
    """If this failed, somebody who hears the page would not know which part of the desk it is."""
    page = new_desk(single="Mari").browser().get(path).text
    assert page.count("aria-current") == 1
    assert f"aria-current={marked}</a>" in page


@pytest.mark.parametrize("path", PAGES)
def test_a_page_is_light(path: str) -> None:
    """If this failed, a page would be slow over a shop's network."""
    desk = new_desk()
    desk.logged_in("Tomas").post("/calls", {"words": "a broken glass"})
    browser = desk.logged_in("Ingrid")
    page = browser.get(path)
    files = {*re.findall(r'(?:href|src)="(/static/[^"]+)"', page.text)}
    weight = len(page.content) + sum(len(browser.get(file).content) for file in files)
    assert weight < 150_000
    assert (FOLDER / "static" / "desk.css").stat().st_size < 20_000
