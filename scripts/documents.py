"""Write the documents that are made from the program, or check that they are up to date.

``docs/fit-book.md``, ``docs/joints.md``, ``docs/rules.md``, ``docs/commands.md``, ``docs/api.md``,
``docs/sources.bib``, the charts in ``docs/charts`` and the sample output in ``README.md``,
``docs/flame.md``, ``docs/places.md`` and ``docs/room.md`` come from the same place as the program's
own behaviour, so they cannot fall behind it. ``src/wickwright/burn/flame_nodes.py`` keeps numbers
that would take too long to work out in every run.

Usage: python scripts/documents.py [--check]
"""

from __future__ import annotations

import json
import os
import re
import shlex
import subprocess
import sys
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "src"))

from wickwright.answers.limits_in_force import limits_in_force  # noqa: E402 - needs the path
from wickwright.answers.rule_book import rule_book  # noqa: E402 - needs the path above
from wickwright.burn.burnt_gas import flame_nodes  # noqa: E402
from wickwright.catalogue.columns import TABLES  # noqa: E402
from wickwright.catalogue.lists import JOINTS as JOINT_NAMES  # noqa: E402
from wickwright.catalogue.lists import LISTS  # noqa: E402
from wickwright.desk.api import described  # noqa: E402
from wickwright.desk.api_document import API_PATH, operations  # noqa: E402
from wickwright.fit.joints import JOINTS  # noqa: E402
from wickwright.fit.settings import Settings  # noqa: E402
from wickwright.terms.source import SOURCES  # noqa: E402
from wickwright.terms.units import Units, say  # noqa: E402

FLAME_DECIMALS = 5
_MADE = "Made by `scripts/documents.py` from the program."
COMMANDS = (
    "",
    "desk",
    "fit",
    "which",
    "why",
    "learn",
    "burn",
    "check",
    "book",
    "pair",
    "replaced",
    "rules",
    "backup",
    "restore",
    "completion",
)
SAMPLE = re.compile(
    r"(<!-- sample: (?P<command>.+?)(?: \| lines (?P<first>\d+)-(?P<last>\d+))? -->\n```text\n)"
    r"(?:(?!```).)*?(\n```\n)",
    re.DOTALL,
)


def run(arguments: str) -> str:
    """Return what the command prints; words behind ``<`` are typed into it, one a line."""
    arguments, _, typed = arguments.partition(" < ")
    environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "COLUMNS": "80"}
    for name in ("WICKWRIGHT_BOOK", "WICKWRIGHT_UNITS", "WICKWRIGHT_TIP_LIMIT"):
        environment.pop(name, None)
    done = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-m", "wickwright", *shlex.split(arguments)],
        input="".join(f"{word}\n" for word in typed.split()),
        capture_output=True,
        text=True,
        cwd=ROOT,
        env=environment,
        check=False,
    )
    return (done.stdout + done.stderr).rstrip()


def fit_book() -> str:
    """Return the page on the tables of a fit book."""
    lines = [
        "# The tables of a fit book",
        "",
        "Made by `scripts/documents.py` from the program.",
        "",
    ]
    for table in TABLES.values():
        must = "" if table.must else " (may be left out)"
        lines += [f"## {table.name}{must}", "", f"One row is {table.row}.", ""]
        lines += ["| column | must | holds | note |", "|---|---|---|---|"]
        for column in table.columns:
            holds = column.holds.value
            if column.of in LISTS:
                holds = f"{holds}: {', '.join(LISTS[column.of])}"
            elif column.of:
                holds = f"{holds}: {column.of}"
            must = "yes" if column.must else ""
            lines.append(f"| `{column.name}` | {must} | {holds} | {column.note} |")
        lines.append("")
    return "\n".join(lines)


def joints() -> str:
    """Return the page on the joint rules, with their sketches."""
    lines = ["# The joints", "", _MADE, ""]
    for key, joint in JOINTS.items():
        lines += [f"## {key}: {JOINT_NAMES[key]}", "", "```text", joint.sketch.strip("\n"), "```"]
        lines += ["", f"Permitted range: source `{joint.source}`.", ""]
    return "\n".join(lines)


def rules() -> str:
    """Return the page on every rule."""
    lines = ["# The rules", "", _MADE, ""]
    for rule in rule_book():
        source = SOURCES[rule.source]
        lines += [
            f"## `{rule.key}`: {rule.title}",
            "",
            rule.why,
            "",
            f"- Mended by: {rule.cure}",
            f"- What would break the rule: {rule.breaks}",
            f"- Source: {source.title} ({source.seen.value}).",
        ]
        lines += [
            f"- In force: {one.says}: {say(one.value, Units())} (source `{one.source}`)."
            for one in limits_in_force(rule.key, Settings())
        ]
        lines.append("")
    return "\n".join(lines)


def commands() -> str:
    """Return the page on the commands: their own help."""
    lines = [
        "# The commands",
        "",
        "Made by `scripts/documents.py` from the program's own help.",
        "",
    ]
    for command in COMMANDS:
        title = f"wickwright {command}".strip()
        lines += [f"## {title}", "", "```text", run(f"{command} --help"), "```", ""]
    return "\n".join(lines)


def programs() -> str:
    """Return the page on the interface for programs, out of its OpenAPI document."""
    made = described()
    lines = ["# The interface for programs", "", _MADE, "", made["info"]["description"], ""]
    whole = (
        f"The whole document is at `{API_PATH}/openapi.json`, a page of it at `/api` of the desk. "
        "A lead gives out tokens under 'People'. Answers are those of `--json`: see "
        "[json.md](json.md); `town` is null where no town was taken for a name."
    )
    lines += [whole, ""]
    for path, method, operation in operations(made):
        lines += [f"## {method} {path}", "", operation["description"], ""]
        lines += [*_parameters(operation), *_example(made, operation), *_answers(operation)]
    return "\n".join(lines)


def _parameters(operation: dict[str, Any]) -> Iterator[str]:
    for one in operation.get("parameters", ()):
        must = ", must be there" if one["required"] else ""
        says = one.get("description") or one["schema"].get("description", "")
        yield f"- `{one['name']}` ({one['in']}{must}): {says}"
    if operation.get("parameters"):
        yield ""


def _example(made: dict[str, Any], operation: dict[str, Any]) -> Iterator[str]:
    if "requestBody" in operation:
        (content,) = operation["requestBody"]["content"].values()
        shape = made["components"]["schemas"][content["schema"]["$ref"].rpartition("/")[2]]
        example = json.dumps(shape["examples"][0], ensure_ascii=False)
        yield from ("Body, for example:", "", "```json", example, "```", "")


def _answers(operation: dict[str, Any]) -> Iterator[str]:
    for status, one in operation["responses"].items():
        yield f"- {status}: {one['description']}"
    yield ""


def sources() -> str:
    """Return the bibliography as BibTeX."""
    entries = (
        f"@misc{{{source.key},\n"
        f"  title = {{{source.title}}},\n  note = {{{source.seen.value}}},\n}}\n"
        for source in SOURCES.values()
    )
    head = "% Made by scripts/documents.py from src/wickwright/terms/source.py.\n\n"
    return head + "\n".join(entries)


def flame_numbers() -> str:
    """Return the module of flame temperatures that need not be worked out again."""
    lines = [
        '"""Flame temperatures of kerosene: made by scripts/documents.py, not to be edited.',
        "",
        ":func:`wickwright.burn.burnt_gas.flame_nodes` says what the rows are and works them out.",
        '"""',
        "",
        "from __future__ import annotations",
        "",
        "from typing import Final",
        "",
        '__all__ = ["FLAME_NODES"]',
        "",
        "FLAME_NODES: Final = (",
    ]
    for row in flame_nodes().round(FLAME_DECIMALS).tolist():
        lines += ["    (", *(f"        {value!r}," for value in row), "    ),"]
    return "\n".join([*lines, ")", ""])


def with_samples(name: str) -> str:
    """Return a document with its samples run anew."""
    text = (ROOT / name).read_text(encoding="utf-8")

    def sample(match: re.Match[str]) -> str:
        printed = run(match["command"]).splitlines()
        if match["first"]:
            printed = printed[int(match["first"]) - 1 : int(match["last"])]
        return match[1] + "\n".join(printed) + match[5]

    return SAMPLE.sub(sample, text)


SAMPLED = ("README.md", "docs/flame.md", "docs/places.md", "docs/room.md")
CHARTS = {
    "elevation": "burn DU-401 --at 1700m --chart-of elevation",
    "height": "burn DU-401 --at 1700m --chart-of height",
    "room": "burn DU-401 --room 40m3 --people 2 --air-changes 0.5 --chart-of room",
    "lamp": "fit WH-302 renew-chimney --lost chimney --at 1700m",
    "above": "burn DU-401 --above 0.6m --chart-of above",
}


def chart(name: str) -> str:
    """Return a chart as the command draws it."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"{name}.svg"
        option = "--drawing" if CHARTS[name].startswith("fit ") else "--chart"
        run(f"{CHARTS[name]} {option} {path}")
        return path.read_text(encoding="utf-8")


PAGES = {
    "docs/fit-book.md": fit_book,
    "docs/joints.md": joints,
    "docs/rules.md": rules,
    "docs/commands.md": commands,
    "docs/api.md": programs,
    "docs/sources.bib": sources,
    "src/wickwright/burn/flame_nodes.py": flame_numbers,
    **{name: partial(with_samples, name) for name in SAMPLED},
    **{f"docs/charts/{name}.svg": partial(chart, name) for name in CHARTS},
}


def main() -> int:
    """Write the pages, or with ``--check`` name those that are out of date."""
    check = "--check" in sys.argv[1:]
    stale = []
    for name, page in PAGES.items():
        path, text = ROOT / name, page()
        if not path.exists() or path.read_text(encoding="utf-8") != text:
            stale.append(name)
            if not check:
                path.parent.mkdir(exist_ok=True)
                path.write_text(text, encoding="utf-8")
    for name in stale:
        print(
            f"{name} is out of date: run python scripts/documents.py" if check else f"wrote {name}"
        )
    return int(check and bool(stale))


if __name__ == "__main__":
    sys.exit(main())
