"""The interface for programs described on a page, out of its own OpenAPI document."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from wickwright.desk.api_mount import API_PATH
from wickwright.desk.frame import render
from wickwright.desk.people_here import Here

__all__ = ["AnswerRow", "ApiPage", "OperationRow", "ParameterRow", "router"]

router = APIRouter()
Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class ParameterRow:
    """A parameter: its name, where it stands, whether it must, and what it says."""

    name: str
    where: str
    must: bool
    says: str


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """An answer: its status, and what it says."""

    status: str
    says: str


@dataclass(frozen=True, slots=True)
class OperationRow:
    """Something that can be asked.

    Attributes
    ----------
    key : str
        By which the page is entered.
    method, path : str
        Of HTTP.
    title, says : str
        In a few words, and in a sentence.
    parameters : tuple of ParameterRow
        Of path, query and headers.
    body : str
        An example in JSON; blank where nothing is sent.
    shape : str
        Name of the body's shape in the document; blank where nothing is sent.
    answers : tuple of AnswerRow
        By status.
    """

    key: str
    method: str
    path: str
    title: str
    says: str
    parameters: tuple[ParameterRow, ...]
    body: str
    shape: str
    answers: tuple[AnswerRow, ...]


@dataclass(frozen=True, slots=True)
class ApiPage:
    """The interface: what holds for all of it, and everything that can be asked."""

    about: tuple[str, ...]
    document: str
    operations: tuple[OperationRow, ...]


@router.get("/api")
def api_page(request: Request, visitor: Here) -> Response:
    """Show what programs can ask."""
    del visitor
    return render(request, "api.html", _page())


@cache
def _page() -> ApiPage:
    from wickwright.desk.api import described  # noqa: PLC0415 - loaded with the interface
    from wickwright.desk.api_document import operations  # noqa: PLC0415 - as above

    made = described()
    about = [" ".join(part.split()) for part in made["info"]["description"].split("\n\n")]
    rows = tuple(_row(made, *one) for one in operations(made))
    return ApiPage(tuple(about), f"{API_PATH}/openapi.json", rows)


def _row(made: Json, path: str, method: str, operation: Json) -> OperationRow:
    shape, body = _body(made, operation)
    return OperationRow(
        key=operation["operationId"],
        method=method,
        path=f"{API_PATH}{path}",
        title=operation["summary"],
        says=operation["description"],
        parameters=tuple(_parameters(operation)),
        body=body,
        shape=shape,
        answers=tuple(
            AnswerRow(status, one["description"]) for status, one in operation["responses"].items()
        ),
    )


def _parameters(operation: Json) -> Iterator[ParameterRow]:
    for one in operation.get("parameters", ()):
        says = one.get("description", "") or one["schema"].get("description", "")
        yield ParameterRow(one["name"], one["in"], bool(one["required"]), says)


def _body(made: Json, operation: Json) -> tuple[str, str]:
    """Return the name of the shape of a body, and an example; blank where nothing is sent."""
    if "requestBody" not in operation:
        return "", ""
    (content,) = operation["requestBody"]["content"].values()
    shape = content["schema"]["$ref"].rpartition("/")[2]
    example = made["components"]["schemas"][shape]["examples"][0]
    return shape, json.dumps(example, indent=2, ensure_ascii=False)
