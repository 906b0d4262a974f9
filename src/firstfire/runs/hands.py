"""Like pieces of work shared out among processes, one a core, stoppable; the order changes nothing.

Judging is plain Python, which threads would do one after the other; a forked process has all that
was worked out so far without being sent it. Where processes can't be forked (another system, or a
program with threads of its own under way), the work is done here, one piece after the other.
"""

from __future__ import annotations

import contextlib
import gc
import os
import pickle
import select
import signal
import threading
from collections.abc import Callable, Sequence
from typing import TypeVar

from firstfire.errors import FirstfireError, Stopped

Answer = TypeVar("Answer")
Stop = Callable[[], bool]

_LOOK = 0.05
"""Seconds between two looks at the outside."""
_CHUNK = 1 << 16


def shared_out(
    work: Callable[[int], Answer],
    count: int,
    *,
    stop: Stop | None = None,
    on_progress: Callable[[float], None] | None = None,
    hands: int | None = None,
    kept: dict[int, Answer] | None = None,
) -> list[Answer]:
    """What `work` gives for 0, 1, 2 ... `count` - 1, in that order.

    Parameters
    ----------
    work
        Gives something that can be pickled, and depends on nothing but its number.
    count
        How often.
    stop
        Asked every 0.05 s in the caller's own process, or between two pieces; true stops all.
    on_progress
        Told the share done, 0 to 1.
    hands
        Processes; None: one a core.
    kept
        Where it is stopped, what was done by then, by its number, is put in here.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    Exception
        What the first piece that failed raised.

    Examples
    --------
    >>> shared_out(lambda number: number * number, 4)
    [0, 1, 4, 9]
    """
    several = min(hands or os.cpu_count() or 1, count)
    if several < 2 or not hasattr(os, "fork") or threading.active_count() > 1:
        return _alone(work, count, stop, on_progress, kept)
    children = [_child(work, range(hand, count, several)) for hand in range(several)]
    try:
        return _gathered(children, count, stop, on_progress, kept)
    finally:
        for pid, reading in children:
            _ended(pid, reading)


def _alone(
    work: Callable[[int], Answer],
    count: int,
    stop: Stop | None,
    on_progress: Callable[[float], None] | None,
    kept: dict[int, Answer] | None,
) -> list[Answer]:
    found: list[Answer] = []
    for number in range(count):
        if stop is not None and stop():
            if kept is not None:
                kept.update(enumerate(found))
            raise Stopped("The run was stopped.")
        found.append(work(number))
        if on_progress is not None:
            on_progress((number + 1) / count)
    return found


def _child(work: Callable[[int], object], numbers: Sequence[int]) -> tuple[int, int]:
    """A process that does some of the work and writes each answer down a pipe."""
    reading, writing = os.pipe()
    pid = os.fork()
    if pid:
        os.close(writing)
        return pid, reading
    # Ctrl-C is the parent's to answer; nothing of the parent's may be flushed or ended here.
    code = 1
    try:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        gc.freeze()  # what the parent left needn't be looked through for garbage again and again
        os.close(reading)
        for number in numbers:
            _write(writing, _tried(work, number))
        code = 0
    finally:
        os._exit(code)


def _tried(work: Callable[[int], object], number: int) -> bytes:
    try:
        return pickle.dumps((number, work(number), None))
    except Exception as fault:
        return pickle.dumps((number, None, fault))


def _write(pipe: int, told: bytes) -> None:
    left = memoryview(len(told).to_bytes(8, "little") + told)
    while left:
        left = left[os.write(pipe, left) :]


def _gathered(
    children: Sequence[tuple[int, int]],
    count: int,
    stop: Stop | None,
    on_progress: Callable[[float], None] | None,
    kept: dict[int, Answer] | None,
) -> list[Answer]:
    answers: dict[int, Answer] = {}
    faults: dict[int, Exception] = {}
    waiting = {reading: bytearray() for _, reading in children}
    while waiting:
        ready, _, _ = select.select(list(waiting), [], [], _LOOK)
        for pipe in ready:
            piece = os.read(pipe, _CHUNK)
            if not piece:
                del waiting[pipe]
                continue
            waiting[pipe] += piece
            told: list[tuple[int, Answer, Exception | None]] = _told(waiting[pipe])
            for number, answer, fault in told:
                answers[number] = answer
                if fault is not None:
                    faults[number] = fault
            if on_progress is not None:
                on_progress(len(answers) / count)
        if stop is not None and stop():
            if kept is not None:
                kept.update((each, answers[each]) for each in answers if each not in faults)
            raise Stopped("The run was stopped.")
    if faults:
        raise faults[min(faults)]
    if len(answers) < count:
        raise FirstfireError(
            "A process that shared the work ended before it was done. Was memory short?"
        )
    return [answers[number] for number in range(count)]


def _told(gathered: bytearray) -> list[tuple[int, Answer, Exception | None]]:
    """Whole answers at the front of what has been read, which are taken from it."""
    found = []
    while len(gathered) >= 8:
        size = int.from_bytes(gathered[:8], "little")
        if len(gathered) < 8 + size:
            break
        found.append(pickle.loads(bytes(gathered[8 : 8 + size])))
        del gathered[: 8 + size]
    return found


def _ended(pid: int, reading: int) -> None:
    os.close(reading)
    with contextlib.suppress(ProcessLookupError):
        os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
