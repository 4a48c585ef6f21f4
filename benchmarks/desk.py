"""The desk under load: many advisers at once, beside a bare page of the same stack in the same run.

    python -m benchmarks.desk --lamps L --desks 20 --seconds 60

A made-up book of 2,000 lamps and 10,000 parts (or the demo book) is put in force, the desk is
started as its own process, and advisers take calls in it: begin a call, type, answer, look parts
up, find calls. Each adviser thinks between two requests as a person does (``--think``). Times are
of the whole request as a client on the same machine sees it; beside each stands its ratio to the
bare page, which the same server program gives in the same run.
"""

from __future__ import annotations

import argparse
import http.client
import json
import random
import re
import subprocess
import sys
import tempfile
import threading
import time
from collections import defaultdict
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from benchmarks.routes.book import made_up_book
from benchmarks.routes.scale import SCALES

from wickwright.catalogue.reading import read_book
from wickwright.catalogue.writing import book_tables
from wickwright.store.tables import write_tables

if TYPE_CHECKING:
    from wickwright.catalogue.records import Book, Lamp

BARE = """
import sys, uvicorn
from fastapi import FastAPI
from jinja2 import Environment
from starlette.responses import HTMLResponse
page = Environment(autoescape=True).from_string("<!doctype html><title>{{ t }}</title><p>hello")
app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
@app.get("/")
def hello(): return HTMLResponse(page.render(t="hello"))
uvicorn.run(app, host="127.0.0.1", port=int(sys.argv[1]), log_level="warning")
"""
START = 10.0
"""Advisers sit down one after the other, not all in one moment [s]."""
WORDS = ("I broke my glass", "it is not bright", "I would like a shade", "what do I need for it")


def one_of_each(book: Book, lamp: Lamp) -> Lamp:
    """Leave a lamp one part of each kind."""
    kinds: dict[str, str] = {}
    for part in lamp.as_sold:
        kinds.setdefault(book.parts[part].kind, part)
    return replace(lamp, as_sold=tuple(kinds.values()))


def file_of(size: str, folder: Path) -> Path:
    """Write a made-up book as its reader wants it: one part of each kind, whole millilitres."""
    book = made_up_book(SCALES[size], 1)
    parts = {
        key: replace(part, fuel=replace(part.fuel, volume=round(part.fuel.volume, 6)))
        if part.fuel
        else part
        for key, part in book.parts.items()
    }
    wishes = {
        key: replace(
            wish,
            title=wish.title or key,
            asks=tuple(replace(ask, says=ask.says or key) for ask in wish.asks),
        )
        for key, wish in book.wishes.items()
    }
    lamps = {key: one_of_each(book, lamp) for key, lamp in book.lamps.items()}
    book = replace(book, lamps=lamps, parts=parts, wishes=wishes)
    tables = book_tables(book)
    read = read_book(tables)
    if isinstance(read, tuple):
        msg = f"the made-up book has {len(read)} faults, the first: {read[0]}"
        raise SystemExit(msg)
    folder.mkdir()
    write_tables(folder, tables)
    return folder


class Client:
    """One adviser's browser."""

    def __init__(self, port: int, took: dict[str, list[float]], lock: threading.Lock) -> None:
        self.port, self.took, self.lock = port, took, lock
        self.wire = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
        self.key = ""

    def ask(self, what: str, method: str, path: str, body: dict[str, str] | None = None) -> str:
        """Send a request, note how long it took, return its text or where it leads."""
        headers = {"Host": f"127.0.0.1:{self.port}", "Origin": f"http://127.0.0.1:{self.port}"}
        data = None
        if body is not None:
            data = urlencode({**body, "form_key": self.key})
            headers |= {"Content-Type": "application/x-www-form-urlencoded", "X-Live": "1"}
        began = time.perf_counter()
        try:
            self.wire.request(method, path, data, headers)
            answer = self.wire.getresponse()
        except (http.client.HTTPException, OSError):  # let go while the adviser thought
            self.wire.close()
            self.wire.request(method, path, data, headers)
            answer = self.wire.getresponse()
        text = answer.read().decode(errors="replace")
        spent = time.perf_counter() - began
        if answer.status >= 400:
            msg = f"{method} {path}: {answer.status} {text[:300]}"
            raise SystemExit(msg)
        with self.lock:
            self.took[what].append(spent)
        return answer.headers.get("Location") or text


def version(text: str) -> str:
    """Return the version of the call a page shows."""
    found = re.search(r'name="version" value="(\d+)"', text)
    return found.group(1) if found else "0"


def calls(
    client: Client, draw: random.Random, ids: dict[str, list[str]], end: float, think: float
) -> None:
    """Take calls until the time is over."""
    home = client.ask("home", "GET", "/")
    found = re.search(r'name="form-key" content="([^"]+)"', home)
    client.key = found.group(1) if found else ""

    time.sleep(draw.uniform(0.0, START))

    def pause() -> None:
        time.sleep(draw.expovariate(1.0 / think) if think else 0.0)

    while time.perf_counter() < end:
        words = draw.choice(WORDS)
        path = client.ask("begin", "POST", "/calls", {"words": words, "caller": "Anna"})
        page = client.ask("sheet", "GET", path)
        now = version(page)

        def step(what: str, /, where: str = path, **fields: str) -> None:
            nonlocal now
            now = version(client.ask(what, "POST", f"{where}/say", {**fields, "version": now}))
            pause()

        for end_at in range(len(words) + 6, len(words) + 12):
            step("keystroke", words=(words + ", the old one")[:end_at])
        step("wish", choose=f"wish:{draw.choice(ids['wishes'])}")
        step("place", place=f"{draw.randrange(0, 25) * 100} m")
        step("lamp", lamp=draw.choice(ids["lamps"]))
        for end_at in range(3, 9):
            step("keystroke", note="he calls back"[:end_at])
        client.ask("part", "GET", f"/book/parts/{draw.choice(ids['parts'])}")
        client.ask("lamp page", "GET", f"/book/lamps/{draw.choice(ids['lamps'])}")
        client.ask("find", "GET", f"/find?q={draw.choice(ids['lamps'])}")
        client.ask("what goes out", "GET", f"{path}/out")
        client.ask("home", "GET", "/")
        pause()


def started(command: list[str], says: str) -> tuple[subprocess.Popen[str], str, float]:
    """Start a program; return it with the line it says once it is ready, and after how long."""
    began = time.perf_counter()
    process = subprocess.Popen(  # noqa: S603 - our own program
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    assert process.stdout is not None
    for line in process.stdout:
        if says in line:
            return process, line, time.perf_counter() - began
    msg = f"{command} ended before it was ready"
    raise SystemExit(msg)


def row(name: str, times: list[float], bare: float) -> str:
    """Return a line of the table."""
    times = sorted(times)
    at = [times[min(int(len(times) * share), len(times) - 1)] for share in (0.5, 0.95, 0.99)]
    cells = "".join(f"{one * 1000:9.1f}" for one in at)
    return f"  {name:<14}{len(times):7d}{cells}{at[1] / bare:9.1f}"


def main() -> None:
    """Measure, and print a table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--lamps", default="L", choices=["demo", *SCALES])
    parser.add_argument("--desks", type=int, default=20)
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--think", type=float, default=1.0, help="mean pause between steps [s]")
    parser.add_argument("--store", default="", help="postgresql://...; left out, SQLite")
    parser.add_argument("--wishes", default="", help="names of the wishes to draw from")
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        run(asked, Path(folder))


def run(asked: argparse.Namespace, folder: Path) -> None:
    """Start the desk and the bare page, send the advisers in."""
    command = [sys.executable, "-m", "wickwright"]
    if asked.lamps != "demo":
        print("making up the book ...", flush=True)
        command += ["--book", str(file_of(asked.lamps, folder / "book"))]
    command += ["desk", "--port", "0", "--store", asked.store or str(folder / "desk.sqlite")]
    process, line, cold = started(command, "The desk is open at")
    port = int(re.search(r":(\d+)/", line).group(1))  # type: ignore[union-attr]
    began = time.perf_counter()
    took: dict[str, list[float]] = defaultdict(list)
    lock = threading.Lock()
    Client(port, took, lock).ask("first page", "GET", "/")
    first = time.perf_counter() - began
    bare_process = subprocess.Popen([sys.executable, "-c", BARE, str(port + 1)])  # noqa: S603
    time.sleep(3.0)
    try:
        bare_took: dict[str, list[float]] = defaultdict(list)
        bare = Client(port + 1, bare_took, lock)
        for _ in range(300):
            bare.ask("bare", "GET", "/")
        ids = drawn(command, asked.wishes)
        end = time.perf_counter() + asked.seconds
        desks = [
            threading.Thread(
                target=calls,
                args=(Client(port, took, lock), random.Random(seed), ids, end, asked.think),
            )
            for seed in range(asked.desks)
        ]
        for desk in desks:
            desk.start()
        while time.perf_counter() < end:
            bare.ask("bare, under load", "GET", "/")
            time.sleep(0.2)
        for desk in desks:
            desk.join()
    finally:
        process.terminate()
        bare_process.terminate()
    quiet = sorted(bare_took["bare"])[int(len(bare_took["bare"]) * 0.95)]
    print(
        f"from the command to its address {cold:.2f} s, then the first page {first * 1000:.0f} ms"
    )
    print(f"{asked.desks} desks, mean pause {asked.think} s, {asked.seconds:.0f} s")
    print(f"  {'request':<14}{'times':>7}{'p50 ms':>9}{'p95 ms':>9}{'p99 ms':>9}{'x bare':>9}")
    for name, times in sorted({**took, **bare_took}.items()):
        print(row(name, times, quiet))


def drawn(command: list[str], wishes: str) -> dict[str, list[str]]:
    """Return the numbers to draw from, as the command line lists them."""
    book = command[: command.index("desk")]
    found = {}
    for what, key in (("lamps", "lamp"), ("parts", "part"), ("wishes", "wish")):
        listing = [*book, "book", "list", what, "--json"]
        said = subprocess.run(listing, capture_output=True, text=True, check=True)  # noqa: S603
        found[what] = [one[key] for one in json.loads(said.stdout)]
    found["wishes"] = wishes.split() or found["wishes"]
    return found


if __name__ == "__main__":
    main()
