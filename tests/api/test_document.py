"""The OpenAPI document: true of what is answered, complete, and shown on a page."""

from __future__ import annotations

from copy import deepcopy
from typing import TYPE_CHECKING, Any

import jsonschema_rs
import pytest
from tests.support.programs import program

from wickwright.desk.api import described
from wickwright.desk.api_document import operations

if TYPE_CHECKING:
    from collections.abc import Iterator


def closed(schema: object) -> object:
    """Return a schema in which no object has keys that are not named."""
    if isinstance(schema, list):
        return [closed(one) for one in schema]
    if not isinstance(schema, dict):
        return schema
    found = {key: closed(one) for key, one in schema.items()}
    if "properties" in found:
        found.setdefault("additionalProperties", False)
    return found


def shape_of(operation: dict[str, Any], status: str = "200") -> dict[str, Any]:
    made = deepcopy(described())
    schema = operation["responses"][status]["content"]["application/json"]["schema"]
    components = closed(made["components"])
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "components": components,
            **schema}  # fmt: skip


def bodies() -> Iterator[tuple[str, str, dict[str, Any]]]:
    made = described()
    for path, method, operation in operations(made):
        if "requestBody" in operation and path != "/calls/{call}":
            (content,) = operation["requestBody"]["content"].values()
            name = content["schema"]["$ref"].rpartition("/")[2]
            for example in made["components"]["schemas"][name]["examples"]:
                yield path, method, example


@pytest.mark.parametrize(("path", "method", "body"), [*bodies()])
def test_every_example_is_answered_in_the_shape_the_document_has(
    path: str, method: str, body: dict[str, Any]
) -> None:
    """If this failed, a newcomer who sends the document's example would be refused or misled."""
    answer = program().ask(method, path, body, {"Idempotency-Key": "k"})
    assert answer.status_code in {200, 201}, answer.text
    operation = described()["paths"][path][method.lower()]
    jsonschema_rs.validate(shape_of(operation, str(answer.status_code)), answer.json())


@pytest.mark.parametrize(
    ("path", "template"),
    [
        ("/book", "/book"),
        ("/lamps", "/lamps"),
        ("/parts", "/parts"),
        ("/wishes", "/wishes"),
        ("/complaints", "/complaints"),
        ("/lamps/WH-302", "/lamps/{lamp}"),
        ("/parts/CH-2296", "/parts/{part}"),
        ("/fits?below=GA-2410&above=CH-2296", "/fits"),
        ("/fits?below=CH-2296&above=CH-2296", "/fits"),
    ],
)
def test_every_resource_has_the_shape_the_document_has(path: str, template: str) -> None:
    """If this failed, a client made from the document could not read the answer."""
    answer = program().get(path)
    jsonschema_rs.validate(shape_of(described()["paths"][template]["get"]), answer.json())


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("/routes", {"lamp": "WH-302", "wish": "renew-chimney", "budget": "1"}),
        ("/burn", {"lamp": "WH-302", "lost": ["chimney"]}),
        ("/burn", {"lamp": "DU-401", "room": {"volume_m3": 30}}),
        ("/baskets", {"lines": [{"part": "SH-0733"}, {"part": "nothing", "count": 99999}]}),
        ("/which", {"heard": [{"lamps": ["WH-301"]}, {"lamps": ["WH-302"]}]}),
        (
            "/why",
            {
                "lamp": "WH-302",
                "complaint": "dim",
                "events": ["no dangers", {"sign": "soot", "said": "yes"}],
            },
        ),
    ],
)
def test_other_answers_have_that_shape_too(path: str, body: dict[str, Any]) -> None:
    """If this failed, a client would fail at the first answer that is not the usual one."""
    answer = program().post(path, body)
    jsonschema_rs.validate(shape_of(described()["paths"][path]["post"]), answer.json())


def test_every_operation_says_what_it_refuses_and_carries() -> None:
    """If this failed, a client would meet a status or miss a header nobody told it of."""
    for path, method, operation in operations(described()):
        refused = {"401", "403", "404", "422", "503"}
        if method != "GET":
            refused |= {"400", "413", "415"}
        assert refused <= operation["responses"].keys(), path
        assert operation["summary"], path
        for status, answer in operation["responses"].items():
            if status.startswith(("4", "5")):
                assert [*answer["content"]] == ["application/problem+json"], (path, status)
    made = described()["paths"]
    begun = made["/calls"]["post"]
    assert {"409", "422", "400"} <= begun["responses"].keys()
    assert begun["responses"]["201"]["headers"].keys() == {"ETag", "Location"}
    assert {"412", "428"} <= made["/calls/{call}"]["patch"]["responses"].keys()
    assert "304" in made["/parts"]["get"]["responses"]
    assert described()["openapi"].startswith("3.1")


def test_the_document_is_to_be_had_at_its_address() -> None:
    """If this failed, a client could not be made from it."""
    answer = program().get("/openapi.json")
    assert answer.json() == described()


def test_a_page_shows_everything_that_can_be_asked() -> None:
    """If this failed, whoever writes a shop's program would have to read JSON."""
    page = program("Ravi").desk.logged_in("Ravi").get("/api")
    assert page.status_code == 200
    for path, method, _ in operations(described()):
        assert f"<code>{method} /api/v1{path}</code></h2>" in page.text
    assert "://" not in page.text
