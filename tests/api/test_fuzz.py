"""Requests of every kind the document allows, and of kinds it does not: none breaks the desk."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, given, seed, settings
from schemathesis import GenerationMode
from schemathesis.core.result import Ok
from schemathesis.specs.openapi.checks import positive_data_acceptance
from tests.api.fuzzing import with_known_names
from tests.support.desks import new_desk

from wickwright.desk.api import described
from wickwright.desk.api_document import operations
from wickwright.desk.app import desk_app

if TYPE_CHECKING:
    from schemathesis import Case
    from schemathesis.schemas import APIOperation
    from tests.support.desks import Desk

SLOW = {"POST /which": 3, "POST /why": 6, "POST /routes": 8, "POST /burn": 8}
"""Examples of operations that compute for long [-]."""
LABELS = [f"{method} {path}" for path, method, _ in operations(described())]


@cache
def desk() -> Desk:
    return new_desk(single="Mari")


@cache
def found() -> dict[str, APIOperation[Any, Any, Any, Any]]:
    state = desk().state
    own = replace(state.settings, hosts=("testserver", *state.settings.hosts))
    app = desk_app(replace(state, settings=own))
    schema = schemathesis.openapi.from_asgi("/api/v1/openapi.json", app)
    known = [result.ok() for result in schema.get_all_operations() if isinstance(result, Ok)]
    return {one.label: one for one in known}


@pytest.mark.parametrize("mode", [*GenerationMode])
@pytest.mark.parametrize("label", LABELS)
def test_no_request_makes_the_desk_fail_or_answer_otherwise_than_it_says(
    label: str, mode: GenerationMode
) -> None:
    """If this failed, some request would break the desk, or get an answer no client expects."""
    cases = found()[label].as_strategy(generation_mode=mode)
    named = with_known_names(cases) if mode is GenerationMode.POSITIVE else cases

    @seed(1931)
    @settings(
        max_examples=SLOW.get(label, 12),
        deadline=None,
        database=None,
        suppress_health_check=[*HealthCheck],
        phases=[Phase.generate],
    )
    @given(case=named)
    def ask(case: Case[Any]) -> None:
        case.call_and_validate(excluded_checks=[positive_data_acceptance])

    ask()


def test_every_operation_is_tried() -> None:
    """If this failed, an operation would be left out of the trial and nobody would see it."""
    assert {*found()} == {*LABELS}
