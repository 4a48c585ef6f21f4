"""What the floor promises about itself: ranges, units, sources, and a light import."""

from __future__ import annotations

import importlib
import inspect
import math
import pkgutil
import re
import subprocess
import sys
from dataclasses import fields, is_dataclass
from typing import TYPE_CHECKING

import pytest
from tests.support.docstrings import documented, section

from wickwright import physics
from wickwright.physics import kerosene
from wickwright.physics.air import ATMOSPHERE_RANGE
from wickwright.physics.formula import Validity, outside
from wickwright.terms.source import SOURCES

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from types import ModuleType

MODULES = [
    importlib.import_module(f"wickwright.physics.{found.name}")
    for found in pkgutil.iter_modules(physics.__path__)
]


def _public(module: ModuleType) -> Iterator[object]:
    for name in module.__all__:
        yield getattr(module, name)


def _functions() -> list[Callable[..., object]]:
    return [
        thing
        for module in MODULES
        for thing in _public(module)
        if inspect.isfunction(thing) and thing.__module__ == module.__name__
    ]


def _ranges() -> list[tuple[ModuleType, Validity]]:
    found: list[tuple[ModuleType, Validity]] = []
    for module in MODULES:
        for thing in _public(module):
            group = thing if isinstance(thing, tuple) else (thing,)
            found += [(module, entry) for entry in group if isinstance(entry, Validity)]
    return found


UNITLESS = re.compile(r"^(str|Fuel|Glass|Validity|Equilibrium)\b")


@pytest.mark.parametrize("function", _functions(), ids=lambda thing: thing.__name__)
def test_docstring_matches_signature(function: Callable[..., object]) -> None:
    """A parameter without its unit, or one that is not there, would be read wrongly."""
    text = inspect.cleandoc(function.__doc__ or "")
    words_of = documented(text)
    assert list(words_of) == list(inspect.signature(function).parameters)
    for name, words in words_of.items():
        assert "[" in words or UNITLESS.match(words), f"{name} has no unit in brackets"
    assert section(text, "Returns").strip(), "nothing is said of what comes back"


@pytest.mark.parametrize(
    ("module", "validity"), _ranges(), ids=lambda thing: getattr(thing, "formula", "")
)
def test_range_names_a_formula_and_a_source(module: ModuleType, validity: Validity) -> None:
    """A finding out of range would name a formula or a source that is not there."""
    assert callable(getattr(module, validity.formula))
    assert validity.source in SOURCES
    assert validity.low < validity.high


def test_sources_in_docstrings_are_in_the_bibliography() -> None:
    """A citation would lead nowhere."""
    for module in MODULES:
        text = inspect.getsource(module)
        cited = set(re.findall(r"``([a-z][a-z0-9-]*\d{3,4}[a-z]?)``", text))
        assert cited <= set(SOURCES), f"{module.__name__} cites {sorted(cited - set(SOURCES))}"


def test_records_cite_the_bibliography() -> None:
    """A property of fuel or glass would cite a source that is not there."""
    for module in MODULES:
        for thing in _public(module):
            group = thing if isinstance(thing, tuple) else (thing,)
            for record in group:
                if is_dataclass(record) and not isinstance(record, type):
                    keys = [f.name for f in fields(record) if f.name.endswith("source")]
                    assert all(getattr(record, key) in SOURCES for key in keys), record


def test_properties_lie_in_their_range() -> None:
    """A value outside the spread its source gives is a slip of the pen."""
    for entry in kerosene.PROPERTIES:
        assert entry.low <= entry.value <= entry.high, entry.name


@pytest.mark.parametrize(
    ("value", "expected"),
    [(-5000.0, False), (0.0, False), (11019.0, False), (11020.0, True), (-6000.0, True)],
)
def test_outside(value: float, expected: bool) -> None:  # noqa: FBT001 - a table of cases
    """A value on the bound would be refused, or one beyond it passed."""
    assert outside(ATMOSPHERE_RANGE, value) is expected


def test_what_is_no_number_is_outside() -> None:
    """NaN would pass for a value in range."""
    assert outside(ATMOSPHERE_RANGE, math.nan)


def test_pressure_at_a_place_needs_no_numpy() -> None:
    """The command line would load numpy to look up a pressure."""
    code = (
        "import sys; from wickwright.physics.air import pressure_at; pressure_at(1500.0); "
        "print('numpy' in sys.modules)"
    )
    done = subprocess.run(  # noqa: S603 - our own interpreter and text
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "False"
