"""How long 300 whole engines take to draw and run: the truth that spans are held against."""

import sys
from pathlib import Path
from time import perf_counter

from benchmarks.figure import Figure, at_most

ROOT = Path(__file__).resolve().parents[1]
COUNT, SEED = 300, 4711


def measure() -> list[Figure]:
    import firstfire as ff
    from firstfire.runs.truth import truth

    engine = ff.read(ROOT / "engines" / "wren.toml")
    truth(engine, 1, SEED)
    begun = perf_counter()
    truth(engine, COUNT, SEED, on_progress=_told)
    took = perf_counter() - begun
    return [at_most(f"{COUNT} whole engines like wren, drawn and run", took, 90.0, "s")]


def _told(share: float) -> None:
    """Progress, where somebody watches."""
    if sys.stderr.isatty():
        print(f"\r{share:4.0%}", end="", file=sys.stderr, flush=True)
