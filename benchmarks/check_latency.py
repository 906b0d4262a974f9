"""How long a check and a judgement take, and what memory: a single and a twin.

The whole command is timed against importing NumPy and SciPy's integrators alone. Processor time is
told in the note, since a busy machine stretches both, though not alike.
"""

import itertools
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from benchmarks.alternate import median_times, seconds
from benchmarks.figure import Figure, at_most, peak_memory

ROOT = Path(__file__).resolve().parents[1]
IMPORTS = [sys.executable, "-c", "import numpy, scipy.integrate"]


def measure() -> list[Figure]:
    return [_command("single", "wren", 10), _command("twin", "heron", 16), *_judging()]


def _command(kind: str, name: str, limit: float) -> Figure:
    """The command on an engine, over the imports."""
    file = str(ROOT / "engines" / f"{name}.toml")
    command = [str(Path(sys.executable).with_name("firstfire")), "check", file]
    whole, imports = median_times(_run(command), _run(IMPORTS), 3)
    used = _processor_time(command) / _processor_time(IMPORTS)
    note = f"{whole:.1f} s against {imports:.2f} s; {used:.1f} × in processor time"
    text = f"firstfire check of a {kind} ÷ importing NumPy and SciPy"
    return at_most(text, whole / imports, limit, "×", note)


def _run(command: list[str]) -> Callable[[], object]:
    return lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def _processor_time(command: list[str]) -> float:
    """Of a command and all its threads, s."""
    before = os.times()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    after = os.times()
    return (after.children_user + after.children_system) - (
        before.children_user + before.children_system
    )


def _judging() -> list[Figure]:
    """Full throttle judged anew as a slider moves, the quickest of many; then the memory used."""
    import firstfire as ff

    found = []
    for kind, name in (("single", "wren"), ("twin", "heron")):
        result = ff.check(ff.read(ROOT / "engines" / f"{name}.toml"))
        full = next(event for event in result.events if event.event == "full_throttle")
        moments = itertools.count(start=1.0, step=0.1)
        quickest = min(seconds(lambda: ff.judge(full, next(moments))) for _ in range(60))  # noqa: B023
        text = f"judging full throttle of a {kind} at another second"
        note = f"{len(full.bouts)} points"
        found.append(at_most(text, quickest * 1e3, 20, "ms", note))
    return [*found, at_most("memory of a check of a twin", peak_memory(), 600, "MB")]
