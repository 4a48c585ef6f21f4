"""Conditions of a search that read the same on every database."""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa
from sqlalchemy.ext.compiler import compiles
from sqlalchemy.sql.functions import FunctionElement

from wickwright.store.column_types import Words, keepable

if TYPE_CHECKING:
    from sqlalchemy.sql.compiler import SQLCompiler

    from wickwright.answers.plain.answers import Plain

__all__ = ["holds", "number_in", "text_in"]

_DIGITS = 10


class _Place(FunctionElement[int]):
    """Where one text stands in another; 0 is nowhere."""

    type = sa.Integer()
    inherit_cache = True


@compiles(_Place, "sqlite")
def _in_sqlite(element: _Place, compiler: SQLCompiler, **more: object) -> str:
    return f"instr({compiler.process(element.clauses, **more)})"


@compiles(_Place, "postgresql")
def _in_postgresql(element: _Place, compiler: SQLCompiler, **more: object) -> str:
    return f"strpos({compiler.process(element.clauses, **more)})"


def holds(column: sa.Column[str], text: str) -> sa.ColumnElement[bool]:
    """Return the condition that a text stands anywhere in a column.

    No pattern is made of it, so that nothing in it needs escaping and nothing is too long.
    """
    return _Place(column, sa.literal(keepable(text), Words)) > 0


class _TextIn(FunctionElement[str]):
    """The text under a name of plain data that is kept as JSON."""

    type = sa.Text()
    inherit_cache = True


@compiles(_TextIn, "sqlite")
def _out_of_sqlite(element: _TextIn, compiler: SQLCompiler, **more: object) -> str:
    kept, name = (compiler.process(one, **more) for one in element.clauses)
    return f"json_extract({kept}, '$.' || {name})"


@compiles(_TextIn, "postgresql")
def _out_of_postgresql(element: _TextIn, compiler: SQLCompiler, **more: object) -> str:
    kept, name = (compiler.process(one, **more) for one in element.clauses)
    return f"(CAST({kept} AS json) ->> {name})"


def text_in(column: sa.Column[Plain], name: str) -> sa.ColumnElement[str]:
    """Return the text that stands under a name in plain data; the rest of it is not read."""
    return _TextIn(column, sa.literal(name, sa.Text))


def number_in(text: str) -> int:
    """Return the number of a call where it is what was typed, such as ``12`` or ``#12``; else 0."""
    bare = text.strip().removeprefix("#").lstrip("0")
    return int(bare) if bare.isascii() and bare.isdecimal() and len(bare) <= _DIGITS else 0
