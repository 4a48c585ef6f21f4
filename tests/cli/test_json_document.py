import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.support.command import DEMO_ORDERS, DEMO_READINGS, said

from wickwright import app
from wickwright.answers.words.reasons import Why

TEXT = (Path(app.__file__).parents[2] / "docs" / "json.md").read_text(encoding="utf-8")
NAMED = set(re.findall(r"`([a-z_0-9]+)`", TEXT)) | set(re.findall(r'{"([a-z_0-9]+)"', TEXT))
OPEN = {"facts", "as_printed", "answers", "faults_by_name"}
"""Keys below these are data: facts of a rule, columns of the book, lamps, names of faults."""


def _keys(plain: object) -> Iterator[str]:
    if isinstance(plain, dict):
        for key, value in plain.items():
            yield key
            if key not in OPEN:
                yield from _keys(value)
    elif isinstance(plain, list):
        for one in plain:
            yield from _keys(one)


@pytest.mark.parametrize(
    "arguments",
    [
        ("fit", "WH-302", "renew-chimney", "--at", "1700m"),
        ("fit", "WH-302", "add-glass-shade"),
        ("fit", "WH-301,TU-601", "renew-chimney"),
        ("burn", "DU-401", "--at", "1700m", "--with", "CH-3371", "--room", "40m3", "--people", "2"),
        ("burn", "DU-401", "--calibrate", str(DEMO_READINGS), "--above", "0.4m"),
        ("burn", "BX-701"),
        ("burn", "DU-401", "--lost", "burner"),
        ("check", str(DEMO_ORDERS)),
        ("pair", "CH-3296", "GA-2450"),
        ("replaced", "CH-2296"),
        ("rules",),
        ("book", "show", "WH-302"),
        ("book", "show", "GA-2450"),
        ("book", "show", "winder-broken"),
        ("book", "show", "flickers"),
        ("book", "show", "new-font"),
        ("book", "show", "collar-across"),
    ],
)
def test_every_key_that_is_printed_is_described(arguments: tuple[str, ...]) -> None:
    """If this failed, whoever reads the JSON would meet a key that is nowhere explained."""
    keys = set(_keys(json.loads(said(*arguments, "--json").out)))
    assert len(keys) > 4
    assert keys - NAMED == set()


def test_every_reason_is_described() -> None:
    """If this failed, a machine would meet a reason it has never heard of."""
    assert {str(why) for why in Why} <= NAMED
