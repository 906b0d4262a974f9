"""How long a whole check takes, against importing NumPy and SciPy's integrators alone."""

import subprocess
import sys
from pathlib import Path

from benchmarks.alternate import median_times
from benchmarks.figure import Figure, at_most

ROOT = Path(__file__).resolve().parents[1]


def measure() -> list[Figure]:
    command = str(Path(sys.executable).with_name("firstfire"))
    wren = str(ROOT / "engines" / "wren.toml")
    whole, imports = median_times(
        lambda: subprocess.run([command, "check", wren], check=True, stdout=subprocess.DEVNULL),
        lambda: subprocess.run([sys.executable, "-c", "import numpy, scipy.integrate"], check=True),
        3,
    )
    note = f"{whole:.1f} s against {imports:.2f} s"
    name = "firstfire check of a single ÷ importing NumPy and SciPy"
    return [at_most(name, whole / imports, 15, "×", note)]
