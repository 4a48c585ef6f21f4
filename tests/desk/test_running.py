"""How the desk may be run, and that it starts and stops."""

import os
import re
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

from wickwright import app
from wickwright.desk.running import CannotRunError, Running, is_loopback, names_of, settings_for

SOURCES = str(Path(app.__file__).parent.parent)
CERTIFICATE, KEY = Path("desk.pem"), Path("desk.key")


def test_alone_at_one_machine_nobody_logs_in() -> None:
    """If this failed, a newcomer could not try the desk with one command."""
    settings = settings_for(Running(person="Mari"), people=False)
    assert (settings.single, settings.tls) == ("Mari", False)
    assert settings.hosts == ("127.0.0.1:8737", "localhost:8737", "[::1]:8737")


def test_once_people_are_known_they_log_in() -> None:
    """If this failed, a desk with names and roles would stand open after a restart."""
    assert settings_for(Running(), people=True).single == ""
    assert settings_for(Running(first_lead="Ingrid"), people=False).single == ""
    assert settings_for(Running(single=True), people=True).single == "adviser"


@pytest.mark.parametrize(
    ("running", "people", "says"),
    [
        (
            Running(host="192.0.2.7"),
            False,
            (
                "without log-in the desk is for this machine only, and 192.0.2.7 is reached from "
                "others: name a first lead with --first-lead NAME, or leave --host out"
            ),
        ),
        (
            Running(host="192.0.2.7"),
            True,
            (
                "at 192.0.2.7 passwords and callers' names would go over the network for anybody "
                "to read: give --tls-cert and --tls-key, or take the risk with --plain-http"
            ),
        ),
        (
            Running(host="0.0.0.0", single=True, readable=True),  # noqa: S104 - refused
            True,
            (
                "without log-in the desk is for this machine only, and 0.0.0.0 is reached from "
                "others: name a first lead with --first-lead NAME, or leave --host out"
            ),
        ),
        (
            Running(certificate=CERTIFICATE, single=True, first_lead="Ingrid"),
            False,
            (
                "HTTPS needs a certificate and its key: give --tls-cert and --tls-key together\n"
                "--single lets nobody log in, and --first-lead somebody: give one of them"
            ),
        ),
    ],
)
def test_callers_names_are_never_laid_open_by_mistake(
    running: Running,
    people: bool,  # noqa: FBT001 - a parameter of a test
    says: str,
) -> None:
    """If this failed, one wrong option would show callers' addresses to a whole network."""
    with pytest.raises(CannotRunError) as refused:
        settings_for(running, people=people)
    assert str(refused.value) == says


def test_the_risk_can_be_taken_knowingly() -> None:
    """If this failed, a shop without certificates could not use the desk at all."""
    running = Running(host="192.0.2.7", names=("desk.lan",), readable=True)
    assert settings_for(running, people=True).hosts == ("192.0.2.7:8737", "desk.lan:8737")


def test_a_desk_answers_without_a_port_where_browsers_leave_it_out() -> None:
    """If this failed, https://desk.lan/ would be refused as a foreign name."""
    running = Running("192.0.2.7", 443, ("Desk.lan",), certificate=CERTIFICATE, key=KEY)
    assert names_of(running) == ("192.0.2.7", "192.0.2.7:443", "desk.lan", "desk.lan:443")


@pytest.mark.parametrize(
    ("host", "near"),
    [
        ("127.0.0.1", True),
        ("127.9.9.9", True),
        ("::1", True),
        ("localhost", True),
        ("0.0.0.0", False),  # noqa: S104 - asked about
        ("192.0.2.7", False),
        ("localhost.evil.test", False),
    ],
)
def test_what_only_this_machine_reaches(
    host: str,
    near: bool,  # noqa: FBT001 - a parameter of a test
) -> None:
    """If this failed, a desk without log-in could listen to the network."""
    assert is_loopback(host) is near


# -- as a newcomer runs it -----------------------------------------------------------------------


def _run(store: Path, *options: str) -> subprocess.Popen[str]:
    own = {name: value for name, value in os.environ.items() if "WICKWRIGHT" not in name}
    command = (
        "import signal; signal.signal(signal.SIGINT, signal.default_int_handler); "
        "from wickwright.app import main; main()"
    )
    return subprocess.Popen(  # noqa: S603 - our own program
        [sys.executable, "-c", command, "desk", "--port", "0", "--store", str(store), *options],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**own, "PYTHONPATH": SOURCES, "WICKWRIGHT_CACHE": "off", "PYTHONUNBUFFERED": "1"},
    )


def _lines_until(process: subprocess.Popen[str], wanted: str) -> list[str]:
    assert process.stdout is not None
    lines = []
    for line in process.stdout:
        lines.append(line.rstrip("\n"))
        if wanted in line:
            break
    return lines


def _address(lines: list[str]) -> str:
    found = re.search(r"http://127\.0\.0\.1:\d+/", lines[-1])
    assert found, lines
    return found.group()


def _page(address: str) -> str:
    with urllib.request.urlopen(address, timeout=30) as answer:  # noqa: S310 - our own
        text = answer.read().decode()
    assert isinstance(text, str)
    return text


@pytest.mark.skipif(sys.platform == "win32", reason="signals as on a Unix")
@pytest.mark.parametrize("ends", [signal.SIGINT, signal.SIGTERM])
def test_one_command_opens_a_desk_with_calls_to_try_and_ctrl_c_closes_it(
    tmp_path: Path, ends: signal.Signals
) -> None:
    """If this failed, a newcomer would meet an empty desk, a traceback, or nothing."""
    store = tmp_path / "desk.sqlite"
    with _run(store) as process:
        lines = _lines_until(process, "The desk is open")
        assert lines[0] == (
            "A new store: the demo book of Skerry Lampworks is in force, with 3 calls to try."
        )
        page = _page(_address(lines))
        process.send_signal(ends)
        said, errors = process.communicate(timeout=30)
    assert (process.returncode, errors) == (0, "")
    assert said == "The desk is closed; every call is kept.\n"
    for caller in ("Marit Solheim", "Tobias Arkwright", "Ines Duarte"):
        assert caller in page
    with _run(store) as process:
        lines = _lines_until(process, "The desk is open")
        assert len(lines) == 1
        assert "Ines Duarte" in _page(_address(lines))
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=30)


@pytest.mark.skipif(sys.platform == "win32", reason="signals as on a Unix")
def test_the_first_lead_is_let_in_by_a_secret_that_is_printed(tmp_path: Path) -> None:
    """If this failed, a desk for many could be opened by nobody, or by everybody."""
    with _run(tmp_path / "desk.sqlite", "--first-lead", "Ingrid") as process:
        lines = _lines_until(process, "The desk is open")
        assert re.fullmatch(r"Ingrid logs in once with: [\w-]{24}", lines[1])
        assert lines[2] == "Then a password has to be chosen. This is not shown again."
        assert lines[3].endswith("(log in). Ctrl-C closes it.")
        assert "<h1>Log in</h1>" in _page(_address(lines))
        process.send_signal(signal.SIGINT)
        process.communicate(timeout=30)


def test_a_desk_that_cannot_run_says_why(tmp_path: Path) -> None:
    """If this failed, an option too few would end in a traceback."""
    with _run(tmp_path / "desk.sqlite", "--host", "192.0.2.7") as process:
        said, errors = process.communicate(timeout=30)
    assert (process.returncode, said) == (2, "")
    assert errors == (
        "Error: without log-in the desk is for this machine only, and 192.0.2.7 is reached from "
        "others: name a first lead with --first-lead NAME, or leave --host out\n"
    )


def test_who_works_and_where_are_one_line() -> None:
    """If this failed, a break in an option would stand in the trail of every call."""
    settings = settings_for(Running(person="Mari\nB.", desk="back\x07room"), people=False)
    assert (settings.single, settings.desk) == ("Mari B.", "back room")
    blank = settings_for(Running(person="\n", desk=" \t"), people=False)
    assert (blank.single, blank.desk) == ("adviser", "front")
