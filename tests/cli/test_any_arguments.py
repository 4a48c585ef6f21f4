import json

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.support.command import DEMO_BOOK, DEMO_ORDERS, said

WORDS = (
    "fit",
    "book",
    "pair",
    "replaced",
    "rules",
    "list",
    "show",
    "lamps",
    "WH-302",
    "DU-401,WH-301",
    "CH-3296",
    "renew-chimney",
    "add-glass-shade",
    "--at",
    "1700m",
    "--have",
    "--lost",
    "chimney",
    "--bare",
    "--count",
    "3",
    "--budget",
    "20",
    "--json",
    "--book",
    str(DEMO_BOOK),
    str(DEMO_ORDERS),
    "--units",
    "us",
    "--tip-limit",
    "en15493",
    "--",
    "",
    ",",
)
COMMANDS = (
    ("fit",),
    ("fit", "WH-302", "renew-chimney"),
    ("book", "list"),
    ("book", "show"),
    ("pair", "CH-3296"),
    ("replaced",),
    ("rules",),
    (),
)

anything = st.one_of(st.sampled_from(WORDS), st.text(max_size=8))


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(COMMANDS), st.lists(anything, max_size=5))
def test_no_arguments_end_in_a_traceback(command: tuple[str, ...], more: list[str]) -> None:
    """If this failed, a slip of the fingers would show the inside of the program."""
    found = said(*command, *more)
    assert found.code in range(5), found.err
    assert "Traceback" not in found.err
    if found.code == 2:
        assert found.err
    if "--json" in more and found.code != 2 and "--help" not in more and "--" not in more:
        json.loads(found.out)


@pytest.mark.parametrize("typed", ["fti", "chek", "boook"])
def test_an_unknown_command_is_answered_with_the_nearest(typed: str) -> None:
    """If this failed, a slip in a command would be answered with a bare refusal."""
    meant = {"fti": "fit", "chek": "check", "boook": "book"}[typed]
    found = said(typed)
    assert found.code == 2
    assert found.err.endswith(
        f"Error: there is no command '{typed}': did you mean '{meant}'? the commands are "
        "desk, fit, which, why, learn, burn, check, book, pair, replaced, rules, backup, restore, "
        "completion\n"
    )


@pytest.mark.parametrize("command", ["fit", "check", "book", "pair", "replaced", "rules"])
def test_the_line_of_help_is_what_the_command_says_of_itself(command: str) -> None:
    """If this failed, the list of commands would lead a newcomer astray."""
    assert f"  {command}" in said("--help").out
    found = said(command, "--help")
    assert found.code == 0
    assert found.out.startswith(f"Usage: wickwright {command} ")


def test_a_mistake_of_ours_is_owned_up_to(monkeypatch: pytest.MonkeyPatch) -> None:
    """If this failed, a mistake in the program would be laid at the user's door."""

    def broken(*_: object) -> None:
        message = "nobody thought of this"
        raise RuntimeError(message)

    monkeypatch.setattr("wickwright.cli.desk.read_or_faults", broken)
    found = said("book", "list", "lamps")
    assert (found.code, found.out) == (70, "")
    assert found.err == (
        "Error: a mistake in wickwright itself (RuntimeError: nobody thought of this). Please "
        "report it with what you typed; with WICKWRIGHT_TRACE=1 set, the place is shown.\n"
    )
