"""Two things timed in turn, so that what else the machine does falls on both alike."""

import math
from collections.abc import Callable, Sequence
from statistics import median
from time import perf_counter


def seconds(work: Callable[[], object]) -> float:
    """Give how long one call of `work` takes, s."""
    start = perf_counter()
    work()
    return perf_counter() - start


def median_times(
    first: Callable[[], object], second: Callable[[], object], rounds: int
) -> tuple[float, float]:
    """Give the median times of two pieces of work, s, run turn by turn.

    One turn of each goes before and is not counted: it fills the caches.
    """
    first()
    second()
    pairs = [(seconds(first), seconds(second)) for _ in range(rounds)]
    return median(pair[0] for pair in pairs), median(pair[1] for pair in pairs)


def least_times(work: Sequence[Callable[[], object]], lasting: float) -> list[float]:
    """Give the shortest time of each piece of work, s, all run turn by turn for `lasting` seconds.

    What else the machine does only adds to a time; over many turns each piece finds it idle once.
    """
    for piece in work:
        piece()
    least = [math.inf] * len(work)
    end = perf_counter() + lasting
    while perf_counter() < end:
        least = [min(before, seconds(piece)) for before, piece in zip(least, work, strict=True)]
    return least
