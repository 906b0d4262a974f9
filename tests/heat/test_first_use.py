"""What is compiled beside the gas side at first use is all that a run then asks of the walls."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

ASKED = """
from firstfire.heat import march
from firstfire.heat.first_use import compile_march

def signatures():
    return {n: len(f.signatures) for n, f in vars(march).items() if hasattr(f, "signatures")}

compile_march()
before = signatures()
import firstfire as ff
from firstfire.runs.bout import warmed
result = ff.run(ff.read("engines/wren.toml"), "full_throttle", speeds=[300.0])
assert result.bouts[0].histories
assert any(before.values())
assert signatures() == before, (before, signatures())
"""


def test_a_run_compiles_nothing_of_the_walls_any_more() -> None:
    done = subprocess.run(
        [sys.executable, "-c", ASKED], check=False, capture_output=True, text=True, cwd=ROOT
    )
    assert done.returncode == 0, done.stderr
