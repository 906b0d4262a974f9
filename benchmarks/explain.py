"""How long opening one judgement takes, against the whole check it is from.

The judgement is of a part whose changes need no new run of the gas, and one that every event can
bring about: what is compared is the way to it.
"""

import subprocess
import sys
from pathlib import Path

from benchmarks.alternate import median_times
from benchmarks.figure import Figure, at_most

ROOT = Path(__file__).resolve().parents[1]


def measure() -> list[Figure]:
    command = str(Path(sys.executable).with_name("firstfire"))
    wren = str(ROOT / "engines" / "wren.toml")

    def run(*words: str) -> None:
        subprocess.run([command, *words], check=True, stdout=subprocess.DEVNULL)

    opened, whole = median_times(
        lambda: run("explain", wren, "crank.cheek.break"), lambda: run("check", wren), 3
    )
    note = f"{opened:.1f} s against {whole:.1f} s"
    name = "firstfire explain of one judgement ÷ firstfire check of a single"
    return [at_most(name, opened / whole, 1.2, "×", note)]
