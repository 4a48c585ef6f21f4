"""Real runs in a process of their own: what is loaded, how it ends."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from tests.support.command import DEMO_BOOK, DEMO_ORDERS

from wickwright import app

SOURCES = str(Path(app.__file__).parent.parent)
HEAVY = ("numpy", "scipy", "pyarrow", "xlsxwriter", "python_calamine", "importlib.metadata")


def _environment(**more: str) -> dict[str, str]:
    own = {name: value for name, value in os.environ.items() if "WICKWRIGHT" not in name}
    return {**own, "PYTHONPATH": SOURCES, "WICKWRIGHT_CACHE": "off", **more}


def _run(*arguments: str, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603 - our own program
        [sys.executable, *arguments],
        capture_output=True,
        text=True,
        env=_environment(**more),
        timeout=60,
        check=False,
    )


def _loaded_after(*arguments: str) -> set[str]:
    """Run the command line in a fresh process and return the modules it loaded."""
    code = (
        "import sys\nfrom wickwright.app import run\n"
        f"run({list(arguments)!r})\nprint('LOADED', *sys.modules)"
    )
    last = _run("-c", code).stdout.splitlines()[-1]
    assert last.startswith("LOADED ")
    return set(last.split()[1:])


def test_help_loads_nothing_but_click_and_the_command_line() -> None:
    """If this failed, every call of the program would begin with a wait."""
    loaded = _loaded_after("--help")
    assert not loaded.intersection(HEAVY)
    ours = {name for name in loaded if name.startswith("wickwright")}
    rooms = {name.split(".")[1] for name in ours if "." in name}
    assert rooms == {"app", "cli"}
    commands = {"wickwright.cli.fit", "wickwright.cli.check", "wickwright.cli.book"}
    assert not ours & commands


def test_an_answer_loads_no_library_it_does_not_need() -> None:
    """If this failed, an adviser with a caller on the line would wait for a solver.

    A flame is computed with numpy, and with nothing that numpy itself does not load.
    """
    loaded = _loaded_after("fit", "WH-302", "renew-chimney")
    assert not loaded.intersection({*HEAVY, "numpy.polynomial"} - {"numpy"})


def test_the_module_is_the_command() -> None:
    """If this failed, 'python -m wickwright' would do something else."""
    found = _run("-m", "wickwright", "--version")
    assert (found.returncode, found.stdout, found.stderr) == (0, "wickwright, version 0.1.0\n", "")


def test_a_reader_that_stops_early_is_no_error() -> None:
    """If this failed, 'wickwright ... | head' would end in a traceback."""
    with subprocess.Popen(
        [sys.executable, "-m", "wickwright", "book", "print"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=_environment(),
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.readline()
        process.stdout.close()
        assert process.stderr.read() == ""
    assert process.returncode == 141


_LISTENING = (
    "import signal; signal.signal(signal.SIGINT, signal.default_int_handler); "
    "from wickwright.app import main; main()"
)
"""The command, listening to the keyboard even where the tests run behind a shell that does not."""


@pytest.mark.skipif(sys.platform == "win32", reason="signals as on a Unix")
def test_a_break_from_the_keyboard_is_quiet(tmp_path: Path) -> None:
    """If this failed, Ctrl-C in a long check would print a traceback."""
    pipe = tmp_path / "orders.csv"
    lines = DEMO_ORDERS.read_text(encoding="utf-8").splitlines(keepends=True)
    more = (f"X{at}-{line}" for at in range(300) for line in lines[1:])
    pipe.write_text(lines[0] + "".join(more), encoding="utf-8")
    with subprocess.Popen(  # noqa: S603 - our own program
        [sys.executable, "-c", _LISTENING, "check", str(pipe)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=_environment(),
    ) as process:
        assert process.stdout is not None
        process.stdout.readline()
        process.send_signal(signal.SIGINT)
        _, errors = process.communicate(timeout=60)
    assert (process.returncode, errors) == (130, "")


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_completion_script_is_printed(shell: str) -> None:
    """If this failed, names would have to be typed in full."""
    found = _run("-m", "wickwright", "completion", shell)
    assert found.returncode == 0
    assert f"_WICKWRIGHT_COMPLETE={shell}_complete" in found.stdout


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("wickwright fit WH-30", ["plain,WH-301", "plain,WH-302"]),
        ("wickwright fit DU-401,WH-30", ["plain,DU-401,WH-301", "plain,DU-401,WH-302"]),
        ("wickwright fit WH-301 renew-c", ["plain,renew-chimney", "plain,renew-cleaner"]),
        ("wickwright fit WH-301 renew-wick --lost chim", ["plain,chimney"]),
    ],
)
def test_names_are_completed_from_the_book(typed: str, offered: list[str]) -> None:
    """If this failed, completion would offer nothing, or what is not in the book."""
    found = _run(
        "-m",
        "wickwright",
        COMP_WORDS=typed,
        COMP_CWORD=str(len(typed.split()) - 1),
        _WICKWRIGHT_COMPLETE="bash_complete",
        WICKWRIGHT_BOOK=str(DEMO_BOOK),
    )
    assert found.stdout.splitlines()[: len(offered)] == offered
