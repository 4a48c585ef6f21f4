"""The OpenAPI document of the interface: as the framework makes it, with what it cannot know."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from fastapi.openapi.utils import get_openapi

from wickwright.desk.api_mount import API_PATH
from wickwright.desk.api_problems import Refusal

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fastapi import FastAPI

__all__ = ["API_PATH", "API_VERSION", "document", "methods_of"]

API_VERSION: Final = "1.0"

_DESCRIPTION: Final = """Which parts fit a kerosene mantle lamp, what must come along, how the lamp
burns, and whether a basket is right: the answers of the desk, for a web shop.

Numbers are in SI units with the unit at the end of the key; money is decimal text in the book's
currency. Keys never vanish: what is not there is null or an empty list. Words for people stand
under `says`, `why`, `cure` and `cautions`; show the cautions with whatever is sold. Everything is
computed from the fit book, not measured: local codes, licensed practice and the maker's leaflet
come first.

Without a token (`Authorization: Bearer ...`) only a desk that one person uses at one machine
answers. Refusals are problem details after RFC 9457."""

_PROBLEM: Final = {
    "title": "Problem",
    "description": "What was refused, and everything that is wrong (RFC 9457).",
    "type": "object",
    "required": ["type", "title", "status", "detail", "instance", "errors"],
    "properties": {
        "type": {"type": "string", "enum": [kind.urn for kind in Refusal]},
        "title": {"type": "string"},
        "status": {"type": "integer"},
        "detail": {"type": "string"},
        "instance": {"type": "string"},
        "errors": {"type": "array", "items": {"$ref": "#/components/schemas/Wrong"}},
    },
}
_WRONG: Final = {
    "title": "Wrong",
    "description": "One thing that is wrong: a place in the body (RFC 6901), or a parameter.",
    "type": "object",
    "required": ["in", "pointer", "parameter", "detail"],
    "properties": {
        "in": {"type": "string", "enum": ["body", "query", "path", "header"]},
        "pointer": {"type": ["string", "null"]},
        "parameter": {"type": ["string", "null"]},
        "detail": {"type": "string"},
    },
}
_BEARER: Final = {"type": "http", "scheme": "bearer", "description": "A token a lead gave out."}
_FRAMEWORK_S_OWN: Final = ("HTTPValidationError", "ValidationError")


def document(app: FastAPI) -> dict[str, Any]:
    """Return the document of the interface.

    Parameters
    ----------
    app : FastAPI
        The interface.

    Returns
    -------
    dict
        After OpenAPI 3.1.
    """
    made = get_openapi(
        title="Wickwright",
        version=API_VERSION,
        summary="A desk for kerosene mantle lamps, for programs.",
        description=_DESCRIPTION,
        routes=app.routes,
        servers=[{"url": API_PATH}],
    )
    components = made.setdefault("components", {})
    schemas = components.setdefault("schemas", {})
    for name in _FRAMEWORK_S_OWN:
        schemas.pop(name, None)
    schemas.update({"Problem": _PROBLEM, "Wrong": _WRONG})
    components["securitySchemes"] = {"token": _BEARER}
    for _, _, operation in operations(made):
        operation["security"] = [{"token": []}, {}]
    return made


def operations(made: dict[str, Any]) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Yield path, method in capitals, and description of each operation of a document."""
    for path, methods in made["paths"].items():
        for method, operation in methods.items():
            yield path, method.upper(), operation


def methods_of(made: dict[str, Any]) -> dict[str, dict[str, tuple[str, ...]]]:
    """Return the methods of each path of a document, each with the parameters its query takes."""
    found: dict[str, dict[str, tuple[str, ...]]] = {"/openapi.json": {"GET": ()}}
    for path, method, operation in operations(made):
        told = operation.get("parameters", [])
        names = tuple(one["name"] for one in told if one["in"] == "query")
        found.setdefault(path, {})[method] = names
    return found
