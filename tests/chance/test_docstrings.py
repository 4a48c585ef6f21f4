"""What the floor says of its arguments."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from typing import TYPE_CHECKING

import pytest
from tests.support.docstrings import documented, section

from wickwright import chance
from wickwright.terms.source import SOURCES

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

MODULES = [
    importlib.import_module(f"wickwright.chance.{found.name}")
    for found in pkgutil.iter_modules(chance.__path__)
]
UNITLESS = re.compile(
    r"^(str|bool|sequence of (str|bool|Question)\b|iterable of int|sequence of int|int, optional"
    r"|[A-Z]\w+( or None)?\b)"
)
CITED = re.compile(r"``([a-z][a-z0-9-]*\d{4}|assumption)``")


def _functions() -> Iterator[Callable[..., object]]:
    for module in MODULES:
        for name in module.__all__:
            thing = getattr(module, name)
            if inspect.isfunction(thing) and thing.__module__ == module.__name__:
                yield thing
            elif inspect.isclass(thing) and thing.__module__ == module.__name__:
                yield from (
                    method.__func__ if isinstance(method, classmethod) else method
                    for key, method in vars(thing).items()
                    if not key.startswith("_")
                    and (inspect.isfunction(method) or isinstance(method, classmethod))
                )


@pytest.mark.parametrize("function", list(_functions()), ids=lambda thing: thing.__qualname__)
def test_docstring_matches_signature(function: Callable[..., object]) -> None:
    """A parameter without its unit, or one that is not there, would be read wrongly."""
    text = inspect.cleandoc(function.__doc__ or "")
    words_of = documented(text)
    taken = [name for name in inspect.signature(function).parameters if name not in {"self", "cls"}]
    assert list(words_of) == taken
    for name, words in words_of.items():
        assert "[" in words or UNITLESS.match(words), f"{name} has no unit in brackets"
    if inspect.signature(function).return_annotation != "None":
        assert section(text, "Returns").strip(), "nothing is said of what comes back"


def test_sources_are_in_the_bibliography() -> None:
    """A citation would lead nowhere."""
    cited = {key for module in MODULES for key in CITED.findall(inspect.getsource(module))}
    assert len(cited) > 10
    assert cited <= set(SOURCES), sorted(cited - set(SOURCES))
