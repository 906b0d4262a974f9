"""Judging all parts of one cylinder at one moment, which is asked hundreds of times a check.

Processor time, the quickest of many, of the engine that takes longest.
"""

import time
from dataclasses import replace

from tests.parts.moments import FILES, moment

from benchmarks.figure import Figure, at_most
from firstfire.parts import ways

TRIALS = 40


def measure() -> list[Figure]:
    took = {file: _quickest(file) for file in FILES}
    slowest = max(took, key=lambda file: took[file])
    text = "judging all parts at one moment, processor time"
    return [at_most(text, took[slowest] * 1e3, 6, "ms", f"{slowest}, longest of {len(FILES)}")]


def _quickest(file: str) -> float:
    here = moment(file)
    ways(here)
    best = float("inf")
    # A copy each: what the judgements of one moment share is reckoned once.
    for trial in [replace(here) for _ in range(TRIALS)]:
        start = time.process_time()
        ways(trial)
        best = min(best, time.process_time() - start)
    return best
