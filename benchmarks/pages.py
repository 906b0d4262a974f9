"""The pages in a browser: ready, opened, answering each key, and no heavier for all that."""

import contextlib
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import psutil
from playwright.sync_api import Browser, sync_playwright
from tests.conftest import ARGUMENTS, CHROMIUM
from tests.pages.served import Served, Tab

import firstfire as ff
from benchmarks.figure import Figure, at_most
from firstfire.engine.resolve import resolve
from firstfire.pages.answers.messages import Asked
from firstfire.pages.answers.quick import understood
from firstfire.pages.desk.edits import set_value

_ENGINES = Path(__file__).resolve().parents[1] / "engines"
_TIMED, _EDITS, _WARM = 50, 500, 100
_IMPORTS = "import uvicorn, nicegui, firstfire.pages.desk.desk"


def measure() -> list[Figure]:
    """Give what opening, editing and five hundred edits come to."""
    found = [_ready(), *(_read_again(name) for name in ("wren", "heron"))]
    with sync_playwright() as player:
        browser = player.chromium.launch(executable_path=str(CHROMIUM), args=ARGUMENTS)
        for name in ("wren", "heron"):
            with _served(name) as served:
                found += _opening(browser, served, name) if name == "wren" else []
                found.append(_answering(browser, served, name))
                found += _growing(browser, served) if name == "wren" else []
        browser.close()
    return found


@contextlib.contextmanager
def _served(name: str) -> Iterator[Served]:
    with tempfile.TemporaryDirectory() as folder:
        shutil.copy(_ENGINES / f"{name}.toml", folder)
        with Served(Path(folder), f"{name}.toml") as served:
            yield served


def _ready() -> Figure:
    """Server ready over the time of importing its libraries, one after the other in turn."""
    imported, ready = [], []
    for _ in range(5):
        begun = time.perf_counter()
        subprocess.run([sys.executable, "-c", _IMPORTS], check=True)
        imported.append(time.perf_counter() - begun)
        begun = time.perf_counter()
        with _served("wren"):
            ready.append(time.perf_counter() - begun)
    ratio = statistics.median(ready) / statistics.median(imported)
    note = f"ready after {statistics.median(ready):.2f} s"
    return at_most("server ready over importing its libraries", ratio, 2.5, "times", note)


def _read_again(name: str) -> Figure:
    """From a text with another bore, which most hangs on, to plain numbers: as at each key."""
    file = _ENGINES / f"{name}.toml"
    text, took, before = file.read_text(), list[float](), ff.read(file).built
    for number in range(_TIMED):
        said = set_value(text, "cylinder.bore", f"{40 + 0.01 * number:.2f} mm")
        asked = Asked(number, "", "", said, file.name, str(_ENGINES))
        begun = time.perf_counter()
        engine = understood(asked, before)
        resolve(engine)
        took.append(time.perf_counter() - begun)
        before = engine.built
    median = 1000 * statistics.median(took)
    return at_most(f"{name} read again, one value changed", median, 10.0, "ms")


def _opening(browser: Browser, served: Served, name: str) -> list[Figure]:
    """A page opened cold, and again, until its form stands."""
    with Tab(browser, served) as tab:
        tab.ready()  # the engine's first answer is another matter
    with Tab(browser, served, "/none") as tab:
        begun = time.perf_counter()
        tab.page.goto(served.base + "/engine")
        tab.ready()
        cold = time.perf_counter() - begun
        again = []
        for _ in range(5):
            begun = time.perf_counter()
            tab.page.reload()
            tab.ready()
            again.append(time.perf_counter() - begun)
    return [
        at_most(f"page of {name} opened cold", cold, 3.0, "s"),
        at_most(f"page of {name} opened again", statistics.median(again), 0.6, "s"),
    ]


def _answering(browser: Browser, served: Served, name: str) -> Figure:
    """From a key to the first new drawing and ledger on the screen, fifty times."""
    with Tab(browser, served, "/engine") as tab:
        tab.ready()
        tab.until("document.querySelector('#values .row.own')")
        time.sleep(3.0)
        tab.page.evaluate("ff.latencies.length = 0")
        for number in range(_TIMED):
            tab.type("cylinder.bore", f"{38 + 0.1 * (number % 40):.1f} mm")
            tab.until(f"ff.latencies.length > {number}")
            time.sleep(0.4)
        took = sorted(tab.page.evaluate("ff.latencies"))
    p95 = took[int(0.95 * len(took))] / 1000
    note = f"median {took[len(took) // 2] / 1000:.3f} s, longest {took[-1] / 1000:.3f} s"
    return at_most(f"key to answer, {name}, p95 of {_TIMED}", p95, 0.2, "s", note)


def _growing(browser: Browser, served: Served) -> list[Figure]:
    """Memory of the server and of what computes after edits."""
    with Tab(browser, served, "/engine") as tab:
        tab.ready()
        after: dict[int, float] = {}
        for number in range(1, _EDITS + 1):
            tab.type("cylinder.bore", f"{38 + 0.1 * (number % 40):.1f} mm")
            time.sleep(0.12)
            if number in (_WARM, _EDITS):
                time.sleep(0.2)
                after[number] = _memory(served)
    grown = after[_EDITS] / after[_WARM]
    return [
        at_most(f"memory after {_EDITS} edits", after[_EDITS], 600.0, "MB"),
        at_most(f"memory after {_EDITS} edits over {_WARM}", grown, 1.1, "times"),
    ]


def _memory(served: Served) -> float:
    """Of the server and all it started, what is shared counted once, MB."""
    process = psutil.Process(served.process.pid)
    total = 0.0
    for one in [process, *process.children(recursive=True)]:
        with contextlib.suppress(psutil.NoSuchProcess):
            total += one.memory_full_info().pss / 1e6
    return total
