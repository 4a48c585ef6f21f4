"""Lines and JSON on standard output."""

from __future__ import annotations

import shutil
from contextlib import contextmanager, suppress
from typing import TYPE_CHECKING

import click

from wickwright.cli.desk import UnusableError
from wickwright.cli.layout import page_width

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path

    from wickwright.answers.plain.answers import Plain

__all__ = ["echo_json", "echo_lines", "json_text", "terminal_width", "write_bytes", "written"]


def terminal_width() -> int:
    """Return the width to lay out for."""
    return page_width(shutil.get_terminal_size().columns)


def echo_lines(lines: Iterable[str]) -> None:
    """Print lines."""
    click.echo("\n".join(lines))


def json_text(plain: Plain, indent: int | None = 2) -> str:
    """Return JSON with keys in the order they were given."""
    import json  # noqa: PLC0415 - not needed for --help

    return json.dumps(plain, indent=indent, ensure_ascii=False, allow_nan=False)


def echo_json(plain: Plain) -> None:
    """Print one JSON document."""
    click.echo(json_text(plain))


@contextmanager
def written(path: Path | None) -> Iterator[Callable[[str], object]]:
    """Give a function that writes text to a file, or to standard output without one.

    The file takes its name when all of it is written, so that it is never half a report.
    """
    if path is None:
        yield lambda text: click.echo(text, nl=False)
        return
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("w", encoding="utf-8", newline="") as file:
            yield file.write
        part.replace(path)
    except OSError as error:
        msg = f"'{path}' cannot be written: {error.strerror or error}"
        raise UnusableError(msg) from error
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def write_bytes(path: Path, content: bytes) -> None:
    """Write a file that takes its name when all of it is written.

    Parameters
    ----------
    path : Path
        The file.
    content : bytes
        All of it.

    Raises
    ------
    UnusableError
        When it cannot be written.
    """
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    except OSError as error:
        msg = f"'{path}' cannot be written: {error.strerror or error}"
        raise UnusableError(msg) from error
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
