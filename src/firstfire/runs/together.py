"""Independent pieces of work done side by side, stoppable; the order they end in changes nothing.

The compiled gas and wall steppers let go of the interpreter's lock, so threads do.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_COMPLETED, ThreadPoolExecutor, wait
from threading import Event
from typing import TypeVar

from firstfire.errors import Stopped

Answer = TypeVar("Answer")
Stop = Callable[[], bool]

_LOOK = 0.05
"""Seconds between two looks at the outside."""


def together(
    works: Sequence[Callable[[Stop | None], Answer]], stop: Stop | None = None
) -> list[Answer]:
    """What each piece of work gives, in the order of `works`.

    Parameters
    ----------
    works
        Each takes a function that says whether to stop; they share nothing they change.
    stop
        Asked every 0.05 s in the caller's own thread; true stops all.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    Exception
        What the first of `works` that failed raised, once all have ended.

    Examples
    --------
    >>> together([lambda stop: 1, lambda stop: 2])
    [1, 2]
    """
    if stop is not None and stop():
        raise Stopped("The run was stopped.")
    hands = min(len(works), os.cpu_count() or 1)
    if hands < 2:
        return [work(stop) for work in works]
    halted = Event()
    pool = ThreadPoolExecutor(hands)
    try:
        under_way = [pool.submit(work, halted.is_set) for work in works]
        left = set(under_way)
        while left:
            left = wait(left, timeout=_LOOK, return_when=FIRST_COMPLETED).not_done
            if left and stop is not None and stop():
                raise Stopped("The run was stopped.")
        return [one.result() for one in under_way]
    finally:
        # Also where Ctrl-C ends the wait: what runs sees it at its next look.
        halted.set()
        pool.shutdown(wait=True, cancel_futures=True)
