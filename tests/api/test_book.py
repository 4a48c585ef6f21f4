"""The fit book for programs."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from tests.support.demo import demo
from tests.support.programs import problem, program

from wickwright import __version__

if TYPE_CHECKING:
    from wickwright.catalogue.faults import RawTable


def test_the_book_says_its_revision_and_how_much_it_holds() -> None:
    """If this failed, a shop could not tell whether what it kept is still the book in force."""
    asking = program()
    answer = asking.get("/book")
    book, revision = demo().book, asking.desk.state.books.in_force().revision.id
    assert answer.status_code == 200
    assert answer.json() == {
        "revision": revision,
        "name": "demo",
        "loaded": "2031-03-04T09:30:00.000000Z",
        "in_force": "2031-03-04T09:30:00.000000Z",
        "currency": "SKD",
        "about": dict(book.about),
        "counts": {
            "lamps": len(book.lamps),
            "parts": len(book.parts),
            "wishes": len(book.wishes),
            "complaints": len(book.calls.complaints),
        },
    }


@pytest.mark.parametrize("name", ["lamps", "parts", "wishes", "complaints"])
def test_every_page_of_a_list_is_reached_by_its_links_and_nothing_is_told_twice(name: str) -> None:
    """If this failed, a shop that reads page by page would miss records or have some twice."""
    asking, found, path = program(), [], f"/{name}?size=7"
    first = asking.get(path).json()
    while path:
        answer = asking.get(path)
        found += [next(iter(one.values())) for one in answer.json()[name]]
        then = re.search(r'</api/v1([^>]+)>; rel="next"', answer.headers["link"])
        path = then[1] if then else ""
    book = demo().book
    known = {"complaints": book.calls.complaints, "lamps": book.lamps, "parts": book.parts,
             "wishes": book.wishes}[name]  # fmt: skip
    assert found == [*known]
    assert first["total"] == len(known)


def test_parts_of_one_kind_are_listed_alone() -> None:
    """If this failed, a shop would offer wicks where it asked for chimneys."""
    parts = program().get("/parts?kind=chimney&size=1000").json()["parts"]
    known = [one.id for one in demo().book.parts.values() if one.kind == "chimney"]
    assert [one["part"] for one in parts] == known


def test_a_part_says_what_it_fits_and_what_replaced_it() -> None:
    """If this failed, a shop would sell a part that is gone, or not say what goes with it."""
    part = program().get("/parts/ch-2296").json()
    assert part["part"] == "CH-2296"
    assert part["status"] == "no longer made"
    assert part["as_printed"]["kind"] == "chimney"
    (foot,) = part["ports"]
    assert "GA-2410" in foot["fits"]
    assert part["replaced_by"]["heir"]["part"] == "CH-3296"


def test_a_name_that_is_unknown_is_told_with_the_one_that_was_meant() -> None:
    """If this failed, a slip of the pen in a part number would lead nowhere."""
    says = "There is no part of that number: did you mean 'CH-3297'? GET /api/v1/parts lists them."
    assert problem(program().get("/parts/CH-32967")) == {
        "type": "urn:wickwright:unknown-name",
        "title": "A name is not in the fit book",
        "status": 404,
        "detail": says,
        "instance": "/api/v1/parts/CH-32967",
        "errors": [{"in": "path", "pointer": None, "parameter": "part", "detail": says}],
    }


def test_every_fault_of_a_query_is_told_at_once() -> None:
    """If this failed, whoever writes a program would mend one fault after the other."""
    assert problem(program().get("/parts?size=0&page=x&revision=1")) == {
        "type": "urn:wickwright:not-usable",
        "title": "What was sent cannot be used",
        "status": 422,
        "detail": "3 things are wrong; the first: revision: is not of the form ^[0-9a-f]{16}$",
        "instance": "/api/v1/parts",
        "errors": [
            {
                "in": "query",
                "pointer": None,
                "parameter": "revision",
                "detail": "revision: is not of the form ^[0-9a-f]{16}$",
            },
            {
                "in": "query",
                "pointer": None,
                "parameter": "page",
                "detail": "page: has to be a valid integer, unable to parse string as an integer",
            },
            {
                "in": "query",
                "pointer": None,
                "parameter": "size",
                "detail": "size: has to be greater than or equal to 1",
            },
        ],
    }


# -- validators ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "path", ["/book", "/lamps", "/lamps/WH-302", "/parts?kind=wick", "/parts/CH-3296", "/wishes"]
)
def test_what_is_unchanged_is_not_sent_again(path: str) -> None:
    """If this failed, a shop would fetch the whole book over and over, or keep an old one."""
    asking = program()
    first = asking.get(path)
    tag = first.headers["etag"]
    revision = asking.desk.state.books.in_force().revision.id
    assert re.fullmatch(rf'"{revision}-[!-~]+-{__version__}"', tag)
    again = asking.get(path, {"If-None-Match": f'"another", W/{tag}'})
    assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", tag)
    assert asking.get(path, {"If-None-Match": '"another"'}).status_code == 200
    assert asking.get(path, {"If-None-Match": "*"}).status_code == 304


def test_another_revision_has_other_validators_and_the_old_one_stays_readable() -> None:
    """If this failed, a shop would sell by a price that no longer holds."""
    asking = program()
    state, clock = asking.desk.state, asking.desk.clock
    old = asking.get("/parts/CH-3296")
    revision = state.books.in_force().revision.id
    tables = state.store.books.tables(revision)
    assert tables is not None
    dearer = [_dearer(one) for one in tables]
    clock.on(hours=1)
    new = state.store.books.add(dearer, "dearer", "Ingrid", clock.now)
    state.store.books.put_in_force(new.id, "Ingrid", "prices", clock.now)
    now = asking.get("/parts/CH-3296", {"If-None-Match": old.headers["etag"]})
    assert (now.status_code, now.json()["price"], old.json()["price"]) == (200, "25.00", "24.00")
    then = asking.get(f"/parts/CH-3296?revision={revision}")
    assert then.json() == old.json()
    assert (now.headers["cache-control"], then.headers["cache-control"]) == (
        "private, no-cache",
        "private, max-age=3600",
    )
    assert asking.get("/parts/CH-3296?revision=0123456789abcdef").status_code == 404


def _dearer(table: RawTable) -> RawTable:
    if table.name != "parts":
        return table
    at, price = table.header.index("part"), table.header.index("price")
    rows = [
        (row, (*cells[:price], "25.00", *cells[price + 1 :]) if cells[at] == "CH-3296" else cells)
        for row, cells in table.rows
    ]
    return replace(table, rows=tuple(rows))


# -- methods -------------------------------------------------------------------------------------


def test_every_resource_says_which_methods_it_takes() -> None:
    """If this failed, a client would try what is not there, or a proxy would be told half of it."""
    asking = program()
    refused = asking.ask("PUT", "/parts")
    assert refused.headers["allow"] == "GET, HEAD, OPTIONS"
    assert problem(refused)["detail"] == "PUT is not done here; GET, HEAD, OPTIONS are."
    options = asking.ask("OPTIONS", "/routes")
    assert (options.status_code, options.headers["allow"]) == (204, "OPTIONS, POST")
    assert asking.ask("DELETE", "/calls/1").headers["allow"] == "GET, HEAD, OPTIONS, PATCH"
    for path in ("/nothing", "/parts/a%0Ab", "/parts/a/b", "/", "//"):
        assert problem(asking.ask("GET", path))["type"] == "urn:wickwright:not-found"
    unknown = problem(asking.client.get("/api/v2/book"))
    assert unknown["type"] == "urn:wickwright:not-found"


def test_what_is_unknown_in_a_query_is_told_and_not_passed_over() -> None:
    """If this failed, a misspelt revision would be answered from another book."""
    assert problem(program().get("/parts?knd=wick&revison=x"))["errors"] == [
        {
            "in": "query",
            "pointer": None,
            "parameter": "knd",
            "detail": "'knd' is not known here: did you mean 'kind'? it takes page, size, kind, "
            "revision",
        },
        {
            "in": "query",
            "pointer": None,
            "parameter": "revison",
            "detail": "'revison' is not known here: did you mean 'revision'? it takes page, size, "
            "kind, revision",
        },
    ]


def test_head_answers_as_get_without_the_body() -> None:
    """If this failed, a client that asks for the validator alone would be sent the whole list."""
    asking = program()
    whole, head = asking.get("/parts"), asking.ask("HEAD", "/parts")
    assert (head.status_code, head.content) == (200, b"")
    for name in ("etag", "content-type", "content-length", "link"):
        assert head.headers[name] == whole.headers[name]
