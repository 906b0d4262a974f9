"""How long a drawing takes: the section and its SVG, for each demo engine."""

import math
import statistics
import time
from collections.abc import Callable
from pathlib import Path

from benchmarks.figure import Figure, at_most
from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.engine.read import read
from firstfire.engine.resolve import resolve

ENGINES = Path(__file__).parent.parent / "engines"
ROUNDS = 25
LIMIT = 50.0


def _median_ms(work: Callable[[float], object]) -> float:
    work(0.0)  # tables and patterns are made once
    times = []
    for turn in range(ROUNDS):
        start = time.process_time()
        work(math.radians(720 * turn / ROUNDS))
        times.append(time.process_time() - start)
    return 1e3 * statistics.median(times)


def measure() -> list[Figure]:
    figures = []
    for name in ("wren", "heron", "plover"):
        plain = resolve(read(ENGINES / f"{name}.toml"))
        across = _median_ms(lambda angle, plain=plain: to_svg(section(plain, crank_angle=angle)))
        along = _median_ms(lambda angle, plain=plain: to_svg(along_crank(plain, crank_angle=angle)))
        note = f"processor time, median of {ROUNDS} crank angles"
        figures.append(at_most(f"{name}, section as SVG", across, LIMIT, "ms", note))
        figures.append(at_most(f"{name}, along the crank as SVG", along, LIMIT, "ms", note))
    return figures
