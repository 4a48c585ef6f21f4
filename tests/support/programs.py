"""Programs that ask a desk's interface."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from starlette.testclient import TestClient
from tests.support.desks import ORIGIN, new_desk

from wickwright.desk.api_access import new_token
from wickwright.desk.app import desk_app

if TYPE_CHECKING:
    from httpx2 import Response
    from tests.support.desks import Desk

__all__ = ["Program", "problem", "program"]


class Program:
    """A program that asks a desk, with or without a token."""

    def __init__(self, desk: Desk, token: str = "") -> None:
        self.desk = desk
        self.token = token
        headers = {"Authorization": f"Bearer {token}"} if token else {}
        app = desk_app(desk.state)
        self.client = TestClient(app, base_url=ORIGIN, headers=headers, follow_redirects=False)

    def ask(
        self, method: str, path: str, body: object = None, headers: dict[str, str] | None = None
    ) -> Response:
        """Ask for a resource under ``/api/v1``; a body is sent as JSON."""
        sent = {} if body is None else {"json": body}
        return self.client.request(method, f"/api/v1{path}", headers=headers, **cast("Any", sent))

    def get(self, path: str, headers: dict[str, str] | None = None) -> Response:
        """Get a resource."""
        return self.ask("GET", path, headers=headers)

    def post(self, path: str, body: object, headers: dict[str, str] | None = None) -> Response:
        """Post a body."""
        return self.ask("POST", path, body, headers)


def program(of: str = "", desk: Desk | None = None) -> Program:
    """Return a program with a token in somebody's name; without a name, at a desk of one."""
    if not of:
        return Program(desk or new_desk(single="Mari"))
    desk = desk or new_desk()
    person = desk.state.store.people.person(of)
    assert person is not None
    return Program(desk, new_token(desk.state, person, "Ingrid"))


def problem(answer: Response) -> dict[str, Any]:
    """Return the problem of an answer, which has to be one."""
    assert answer.headers["content-type"] == "application/problem+json", answer.text
    found = answer.json()
    assert found["status"] == answer.status_code
    return cast("dict[str, Any]", found)
