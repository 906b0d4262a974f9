"""Two things timed in turn, so that what else the machine does falls on both alike."""

from collections.abc import Callable
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
