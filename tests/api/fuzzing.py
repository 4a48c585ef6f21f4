"""Requests of any kind, made from the interface's own document."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from hypothesis import strategies as st
from tests.support.demo import demo

from wickwright.catalogue.records import KINDS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from hypothesis.strategies import DrawFn
    from schemathesis import Case

    AnyCase = Case[Any]

__all__ = ["with_known_names"]


def _known() -> Mapping[str, Sequence[str]]:
    book = demo().book
    parts = (*book.parts,)
    return {
        "lamp": (*book.lamps,),
        "wish": (*book.wishes,),
        "complaint": (*book.calls.complaints,),
        "part": parts,
        "have": parts,
        "with": parts,
        "below": parts,
        "above": parts,
        "lost": (*KINDS, *parts[:20]),
        "place": ("1700 m", "5200ft", "Leadville, CO", "La Paz"),
    }


@st.composite
def with_known_names(draw: DrawFn, cases: st.SearchStrategy[AnyCase]) -> AnyCase:
    """Draw a request; in three of four its names are those of the book, so that it is answered."""
    case = draw(cases)
    if not draw(st.sampled_from((True, True, True, False))):
        return case
    known = _known()
    for holder in (case.body, case.query, case.path_parameters):
        if isinstance(holder, dict):
            _name(draw, cast("dict[str, Any]", holder), known)
    return case


def _name(draw: DrawFn, holder: dict[str, Any], known: Mapping[str, Sequence[str]]) -> None:
    for key, value in holder.items():
        if key == "lines" and isinstance(value, list):
            for line in value:
                if isinstance(line, dict):
                    _name(draw, line, known)
        elif key in known and isinstance(value, str):
            holder[key] = draw(st.sampled_from(known[key]))
        elif key in known and isinstance(value, list):
            holder[key] = [draw(st.sampled_from(known[key])) for _ in value[:3]]
