"""How long a timing table takes against `--help`, and all of `setup` against a check."""

import itertools
import sys
import tempfile
from pathlib import Path

from benchmarks.alternate import median_times
from benchmarks.figure import Figure, at_most
from benchmarks.startup import _run

ROUNDS = 9
_A_HAIR = 1e-5  # mm: another question each time, so that no kept answer is told
ENGINES = Path(__file__).parents[1] / "engines"


def _another(count: int) -> str:
    return f"valves.inlet.lash={0.1 + _A_HAIR * count:.5f} mm"


def measure() -> list[Figure]:
    command = str(Path(sys.executable).with_name("firstfire"))
    wren, heron = (str(ENGINES / f"{name}.toml") for name in ("wren", "heron"))
    table, help_time = median_times(
        lambda: _run(command, "timing", wren), lambda: _run(command, "--help"), ROUNDS
    )
    count = itertools.count(1)
    first, help_again = median_times(
        lambda: _run(command, "timing", wren, "--set", _another(next(count))),
        lambda: _run(command, "--help"),
        ROUNDS,
    )
    with tempfile.TemporaryDirectory() as folder:
        whole, check = median_times(
            lambda: _run(command, "setup", heron, "-o", folder, "--overwrite"),
            lambda: _run(command, "check", heron),
            2,
        )
    return [
        at_most(
            "firstfire timing, asked again ÷ firstfire --help", table / help_time, 3, "×",
            f"medians of {ROUNDS} turns each",
        ),
        at_most(
            "firstfire timing, never asked before ÷ firstfire --help", first / help_again, 3, "×",
            f"medians of {ROUNDS} turns each, of another lash each time",
        ),
        at_most("firstfire setup of a twin ÷ one check", whole / check, 4, "×", "medians of 2"),
    ]  # fmt: skip
